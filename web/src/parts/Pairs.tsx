// Names and what they stand for, a pair a line.

import type { ComponentChildren } from "preact";

export function Pairs({ list, kind }: { list: readonly (readonly [string, ComponentChildren])[]; kind?: string }) {
  return (
    <dl class={kind}>
      {list.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
