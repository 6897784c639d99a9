// A sentence of the server: what it quotes between backticks, names of panels and bodies, stands in quotation
// marks, and degrees have their sign.

import { unbroken } from "../show/figure";

export function Said({ text }: { text: string }) {
  const parts = unbroken(text.replace(/\bdeg([CF])\b/g, "°$1")).split("`");
  return <>{parts.map((part, place) => (place % 2 === 1 ? <q key={place}>{part}</q> : part))}</>;
}
