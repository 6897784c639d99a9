// A table with a caption that scrolls on its own where it is wider than the screen.

import type { ComponentChildren } from "preact";

export function Table({ label, heads, children }: { label: string; heads: readonly string[]; children: ComponentChildren }) {
  return (
    <div class="table-wrap" tabIndex={0} role="region" aria-label={label}>
      <table>
        <caption>{label}</caption>
        <thead>
          <tr>
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  );
}
