// The room round the tank in its space: what growth, bulge and fittings leave of each gap.

import type { ComponentChildren } from "preact";
import { Table } from "../parts/Table";
import { movement } from "../show/figure";
import { select } from "../state/selection";
import { plan } from "../state/job";
import { words } from "../words";

export function RoomKept() {
  const rows = plan.value?.room.filter((row) => row.gap_m !== null && !row.carries) ?? [];
  const fittings = plan.value?.fitting_room.filter((row) => row.gap_m !== null) ?? [];
  const room = words.room;
  return (
    <>
      {rows.length > 0 && (
        <Table label={room.panels} heads={[room.panel, room.gap, room.grows, room.bulges, room.left]}>
          {rows.map((row) => (
            <tr key={row.panel}>
              <Name panel={row.panel}>{row.panel}</Name>
              <td class="figure">{figure(row.gap_m)}</td>
              <td class="figure">{row.growth_m ? figure(row.growth_m[1]) : room.unknown}</td>
              <td class="figure">{figure(row.bulge_m)}</td>
              <Left metres={row.left_m} />
            </tr>
          ))}
        </Table>
      )}
      {fittings.length > 0 && (
        <Table label={room.fittings} heads={[room.fitting, room.gap, room.standsOut, room.left]}>
          {fittings.map((row) => (
            <tr key={row.fitting}>
              <Name panel={row.panel}>{row.fitting}</Name>
              <td class="figure">{figure(row.gap_m)}</td>
              <td class="figure">{row.stands_out_m === null ? room.notSaid : movement(row.stands_out_m)}</td>
              {row.goes_through ? <td>{room.goesThrough}</td> : <Left metres={row.left_m} />}
            </tr>
          ))}
        </Table>
      )}
    </>
  );
}

/** Highlights the panel on the body. */
function Name({ panel, children }: { panel: string; children: ComponentChildren }) {
  const mark = plan.value?.panels.find((one) => one.name === panel)?.mark;
  return (
    <th scope="row">
      <button type="button" class="plain" onClick={() => mark && select(mark)}>
        {children}
      </button>
    </th>
  );
}

function Left({ metres }: { metres: number | null }) {
  return <td class={metres === null || metres < 0 ? "figure over" : "figure"}>{figure(metres)}</td>;
}

function figure(metres: number | null): string {
  return metres === null ? words.room.unknown : movement(metres);
}
