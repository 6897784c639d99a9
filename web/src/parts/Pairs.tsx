// A list of names and values.

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
