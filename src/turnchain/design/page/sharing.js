// A pattern in the page's own address: in its fragment, which no browser sends anywhere.

async function packed(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const found = new Uint8Array(await new Response(stream).arrayBuffer());
  const words = btoa(Array.from(found, (one) => String.fromCharCode(one)).join(''));
  return words.replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '');
}

/** The page's address with the pattern in it, and the files `beside` it by their names. */
export async function linkOf(text, beside = {}) {
  const { origin, pathname } = window.location;
  const more = Object.keys(beside).length ? `&beside=${await packed(JSON.stringify(beside))}` : '';
  return `${origin}${pathname}#pattern=${await packed(text)}${more}`;
}

async function unpacked(words) {
  if (!words || typeof DecompressionStream === 'undefined') return '';
  try {
    const raw = Uint8Array.from(atob(words.replace(/-/g, '+').replace(/_/g, '/')), (one) => one.charCodeAt(0));
    const stream = new Blob([raw]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
    return await new Response(stream).text();
  } catch (error) { return ''; }
}

export function download(name, kind, data) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([data], { type: kind }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** What the program sends in base 64. */
export function bytes(data) {
  return Uint8Array.from(atob(data), (one) => one.charCodeAt(0));
}

/** The pattern that the address holds, with the files beside it: {text, beside}; the text is empty where it holds none. */
export async function shared() {
  const [, pattern, files] = window.location.hash.match(/^#pattern=([\w-]+)(?:&beside=([\w-]+))?$/) || [];
  const text = await unpacked(pattern);
  let beside = null;
  try { beside = JSON.parse((await unpacked(files)) || '{}'); } catch (error) { /* the pattern is read without them */ }
  return { text, beside: texts(beside) };
}

/** What is a text of `files`, by its name; none where they are no table. */
export function texts(files) {
  const isTable = files && typeof files === 'object' && !Array.isArray(files);
  return Object.fromEntries(Object.entries(isTable ? files : {}).filter(([, one]) => typeof one === 'string'));
}
