"use strict";
// The size that its reader chose stays, and is that of the page beside the work too.
{
  const key = `turnchain/${document.body.dataset.key}`;
  const read = () => {
    try {
      return JSON.parse(localStorage.getItem(key)) || {};
    } catch {
      return {}; // nothing kept, or no leave to keep anything
    }
  };
  const inputs = [...document.querySelectorAll(".switch input")];
  const show = (name) => {
    for (const input of inputs) if (input.id === name) input.checked = true;
  };
  const asked = () => location.hash.slice(1).split("/")[0];
  show(read().choices?.size);
  show(asked());
  addEventListener("hashchange", () => {
    show(asked());
    document.getElementById(location.hash.slice(1))?.scrollIntoView();
  });
  for (const input of inputs)
    input.addEventListener("change", () => {
      const kept = read();
      try {
        localStorage.setItem(key, JSON.stringify({ ...kept, choices: { ...kept.choices, size: input.id } }));
      } catch { /* then it is chosen until the page is left */ }
    });
}
