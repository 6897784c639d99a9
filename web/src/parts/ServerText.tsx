// A sentence of the server: text between backticks is put in quotation marks, and degrees get their sign.

import { unbroken } from "../show/figure";

export function ServerText({ text }: { text: string }) {
  const parts = unbroken(text.replace(/\bdeg([CF])\b/g, "°$1")).split("`");
  return <>{parts.map((part, place) => (place % 2 === 1 ? <q key={place}>{part}</q> : part))}</>;
}
