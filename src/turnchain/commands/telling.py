"""What a plan comes to in words: its report, and its rows.

In: arguments. Out: ``check`` and ``words`` for the command line.
"""

from __future__ import annotations

from pathlib import Path

import click

from turnchain import console, options
from turnchain.commands.files import check_ending


@click.command(cls=options.Example, epilog="Example: turnchain check mytop.toml")
@options.FILE
@options.size
@click.option("--colours", is_flag=True, help="Say also which stripes are hard to tell apart.")
@click.option("--brief", is_flag=True, help="Only what matters most, warnings and measures, without the details.")
@click.option("--prove", is_flag=True, help="Work the words and charts stitch by stitch, and say what was proved.")
def check(file: Path, size: str | None, colours: bool, brief: bool, prove: bool) -> None:
    """Report on the plan: gauge, every measure wanted and worked, fit, seams, yarn, and warnings."""
    from turnchain.making import planned, planned_to_report  # loaded when the command runs
    from turnchain.pages.glance import painted
    from turnchain.terminal import coloured_output

    with console.progress():
        plans = planned_to_report(file) if size is None else (planned(file, size=size, others=True),)
    if len(plans) == 1:
        from turnchain.pages.report import report  # of one size

        text = report(plans[0], colours, brief)
    else:
        from turnchain.pages.sizes_report import report_of_sizes  # of several

        if colours or brief:
            raise click.UsageError("--colours and --brief are of one size: give --for as well")
        text = report_of_sizes(plans)
    click.echo(painted(text) if coloured_output() else text, nl=False)
    if prove:
        from turnchain.proof.proving import checked, sizes_checked  # loaded when the command runs

        for plan in plans:
            with console.progress():
                told = checked(plan, str(file))
            click.echo(f"\n{told}", nl=False)
        if len(plans) > 1:
            click.echo(sizes_checked(plans, text, str(file)), nl=False)


@click.command(cls=options.Example, epilog="Example: turnchain words mytop.toml -o mytop.md --language UK")
@options.FILE
@click.option("-o", "--output", type=click.Path(path_type=Path), help="FILE.md; left out, they are printed here.")
@options.language
@options.size
def words(file: Path, output: Path | None, language: str | None, size: str | None) -> None:
    """Write the rows in words: abbreviations, special stitches, and every piece row by row. Sizes share one text."""
    if output is not None:
        check_ending(output, (".md", ".txt"))
    from turnchain.making import planned, planned_sizes  # loaded when the command runs
    from turnchain.wording.all_sizes import all_sizes_text
    from turnchain.writers.files import replaced

    with console.progress():
        text = all_sizes_text(planned_sizes(file) if size is None else (planned(file, size=size),), language)
    if output is None:
        click.echo(text, nl=False)
        return
    with replaced(output, {file: "the pattern file itself"}) as stream:
        stream.write(text.encode())
    console.show(str(output))
