// What this browser keeps: patterns by name, so that nothing is lost when the page is closed.

const PREFIX = 'turnchain pattern: ';

export function kept() {
  const found = [];
  try {
    for (let at = 0; at < localStorage.length; at += 1) {
      const key = localStorage.key(at);
      if (key.startsWith(PREFIX)) found.push({ name: key.slice(PREFIX.length), ...JSON.parse(localStorage.getItem(key)) });
    }
  } catch (error) {
    return [];
  }
  return found.sort((one, other) => other.when - one.when);
}

/** Keeps `text` under `name`, with the files `beside` it by their names; gives false where the browser has no room or
    allows none. */
export function keep(name, text, beside) {
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify({ text, beside, when: Date.now() }));
    return true;
  } catch (error) {
    return false;
  }
}

export function forget(name) {
  localStorage.removeItem(PREFIX + name);
}
