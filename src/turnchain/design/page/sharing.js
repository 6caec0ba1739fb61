// A pattern in the page's own address: in its fragment, which no browser sends anywhere.

/** The page's address with the pattern in it. */
export async function linkOf(text) {
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
  const packed = new Uint8Array(await new Response(stream).arrayBuffer());
  const words = btoa(Array.from(packed, (one) => String.fromCharCode(one)).join(''));
  const { origin, pathname } = window.location;
  return `${origin}${pathname}#pattern=${words.replace(/\+/g, '-').replace(/\//g, '_').replace(/=+$/, '')}`;
}

/** The pattern that the address holds; empty where it holds none. */
export async function sharedText() {
  const found = window.location.hash.match(/^#pattern=([\w-]+)$/);
  if (!found || typeof DecompressionStream === 'undefined') return '';
  try {
    const raw = Uint8Array.from(atob(found[1].replace(/-/g, '+').replace(/_/g, '/')), (one) => one.charCodeAt(0));
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
