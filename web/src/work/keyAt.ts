// The key that a place of the job file's text is in.

const HEADING = /^\s*\[\[?\s*([\w.-]+)\s*\]/;
const KEY = /^\s*([\w-]+)\s*=/;

/** As `space.wall.lean`; the section alone where no key begins in the line. */
export function keyAt(text: string, offset: number): string {
  let section = "";
  let key = "";
  // To the end of the line, so that the cursor may stand before the key's own equals sign.
  const end = text.indexOf("\n", offset);
  for (const line of text.slice(0, end < 0 ? undefined : end).split("\n")) {
    const heading = HEADING.exec(line);
    if (heading) [section, key] = [heading[1]!, ""];
    // A list goes on over lines without a key of their own.
    else if (line.trim() === "") key = "";
    else key = KEY.exec(line)?.[1] ?? key;
  }
  return [section, key].filter(Boolean).join(".");
}
