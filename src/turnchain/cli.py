"""The command line: arguments in, one call for each command, problems printed.

Results go to standard output, errors to standard error. Exit code 0; 1 for a pattern that cannot be made or a
file that cannot be written, and for a run that is stopped; 2 for wrong use. Control characters in names and
messages are printed as escapes. The commands stand in ``commands``.
"""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Iterator, Mapping
from importlib import import_module
from io import StringIO, TextIOWrapper
from typing import Final, NoReturn

#: Objects made before Python looks for circles of them that nobody holds: scenes have hundreds of thousands, and none.
RARELY = 100_000
gc.set_threshold(RARELY)  # now, as to import click makes tens of thousands

import click  # noqa: E402

from turnchain import console  # noqa: E402


class Commands(Mapping[str, click.Command]):
    """The commands by name, each imported when it is called and when help lists it: to make the options of all takes as
    long as to read a pattern."""

    #: Where each stands in ``commands``.
    PLACES: Final = {
        "new": "beginning.new", "design": "beginning.design", "fabrics": "beginning.fabrics",
        "colours": "beginning.colours", "check": "telling.check", "words": "telling.words", "make": "making.make",
        "page": "making.page", "chart": "pictures.chart", "stripes": "pictures.stripes", "print": "pictures.print_",
    }  # fmt: skip

    def __getitem__(self, name: str) -> click.Command:
        module, variable = self.PLACES[name].split(".")
        command: click.Command = getattr(import_module(f"turnchain.commands.{module}"), variable)
        return command

    def __iter__(self) -> Iterator[str]:
        return iter(self.PLACES)

    def __len__(self) -> int:
        return len(self.PLACES)


@click.group(commands=Commands(), context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="turnchain", message="%(prog)s %(version)s")
def cli() -> None:
    """Stitch charts for cluster-stripe crochet, computed from your swatch, your measurements and your colours.

    Begin with: turnchain new mytop.toml
    """


def program() -> NoReturn:
    """The command ``turnchain``: ``main``, and then the end of the process at once. Python would first take apart every
    module and every drawing one by one, which takes as long as a tenth of a chart."""
    try:
        main()
    except SystemExit as stop:
        code = int(stop.code or 0)
    else:
        code = 0
    os._exit(code)


def main() -> None:
    """Runs the command line; whatever happens, ends with an exit code and words, never a traceback."""
    from turnchain.errors import MakerError, Stopped  # loaded when the command runs

    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # letters that this terminal lacks are told by their numbers
            stream.reconfigure(errors="backslashreplace")
    console.hear_stops()
    # numpy would start a thread for every core, which takes longer than all the sums here that could use them
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    try:
        cli.main(standalone_mode=False)
        if sys.stdout is not None:
            sys.stdout.flush()
    except (click.exceptions.Abort, KeyboardInterrupt) as stop:
        if isinstance(stop.__cause__, Stopped):
            click.echo(f"# the best stripes so far, to paste into the pattern file\n{stop.__cause__}")
        sys.exit(console.say("stopped; no file is left half written", 1))
    except click.ClickException as error:
        words = StringIO()
        error.show(words)
        for line in words.getvalue().splitlines():
            console.show(line, err=True)
        sys.exit(error.exit_code)
    except MakerError as error:
        sys.exit(console.say(str(error), 1))
    except BrokenPipeError:
        console.drop_output()
        sys.exit(1)
    except (OSError, MemoryError) as error:
        console.drop_output()
        sys.exit(console.say(f"could not finish: {console.reason(error)}", 1))
    except Exception as error:
        if os.environ.get("TURNCHAIN_DEBUG"):
            raise
        sys.exit(console.say(f"a fault in turnchain itself ({type(error).__name__}: {error}); please report it", 1))


if __name__ == "__main__":
    main()
