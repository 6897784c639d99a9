// A sentence of the server: what it quotes between backticks, names of panels and bodies, stands in quotation marks.

export function Said({ text }: { text: string }) {
  return <>{text.split("`").map((part, place) => (place % 2 === 1 ? <q key={place}>{part}</q> : part))}</>;
}
