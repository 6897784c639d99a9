// The corners of an outline in a view: drag, nudge, insert, delete.

import type { Spot } from "../api/types";
import { length } from "../show/figure";
import type { View } from "../show/axes";
import { answer, changeFrom, written } from "../state/job";
import { at } from "../state/path";
import { words } from "../words";
import { drawn, snapped, step } from "./drag";
import { useDrag } from "./useDrag";
import { arrow } from "./SpaceView";

export function Outline({ view, span }: { view: View; span: number }) {
  return (
    <>
      {(["space", "body"] as const).map((owner) => (
        <Corners key={owner} owner={owner} view={view} span={span} />
      ))}
    </>
  );
}

function Corners({ owner, view, span }: { owner: "space" | "body"; view: View; span: number }) {
  const path = `${owner}.${view.key}`;
  const drawnNow = () => at(answer.value?.job, `${owner}.shape.${view.key}_m`) as Spot[] | null | undefined;
  const outline = drawnNow();
  const corner = (owner === "body" && (at(answer.value?.job, "body.at_m") as number[] | undefined)) || [0, 0, 0];
  const drag = useDrag<number>(Object.is, (index, by) =>
    // From where the corner is by then: the user may be faster than the server.
    changeFrom(() => {
      const spot = drawnNow()?.[index];
      return spot && by.some((way) => way !== 0) ? [{ path: `${path}[${index + 1}]`, set: sum(spot, by).map(drawn) }] : [];
    }),
  );
  const { held } = drag;
  if (!Array.isArray(outline) || written(path) === undefined) return null;
  const spots = outline.map((spot, index) => (held?.what === index ? sum(spot, held.by) : spot));
  const toPaper = (spot: Spot): Spot => [spot[0] + corner[view.across]!, -spot[1] - corner[view.up]!];
  const follow = (event: PointerEvent) =>
    drag.move(event, (index) => {
      const svg = (event.currentTarget as SVGElement).ownerSVGElement!;
      const spot = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM()!.inverse());
      const others = outline.filter((_, other) => other !== index);
      const to = (axis: 0 | 1, place: number) => snapped(place, others.map((one) => one[axis]), span * 0.012) - outline[index]![axis];
      return [to(0, spot.x - corner[view.across]!), to(1, -spot.y - corner[view.up]!)];
    });
  const removeCorner = (index: number, event: KeyboardEvent) => {
    if (event.repeat) return;
    // The last corner disappears with the focus: move it to the one before.
    const group = (event.currentTarget as Element).parentElement;
    group?.previousElementSibling?.querySelector<SVGElement>("[tabindex]")?.focus();
    void changeFrom(() => ((drawnNow()?.length ?? 0) > 3 ? [{ path: `${path}[${index + 1}]`, remove: true }] : []));
  };
  return (
    <g class={`outline ${owner}`}>
      <polygon points={spots.map((spot) => toPaper(spot).join(",")).join(" ")} />
      {spots.map((spot, index) => {
        const [cx, cy] = toPaper(spot);
        const next = outline[(index + 1) % outline.length]!;
        const middle: Spot = [(outline[index]![0] + next[0]) / 2, (outline[index]![1] + next[1]) / 2];
        const [mx, my] = toPaper(middle);
        return (
          <g key={index}>
            <circle
              cx={cx}
              cy={cy}
              r={span * 0.015}
              tabindex={0}
              role="button"
              aria-label={`${words.space.point(index + 1)}: ${length(spot[0])}, ${length(spot[1])}`}
              onPointerDown={(event) => drag.start(event, index)}
              onPointerMove={follow}
              onPointerUp={drag.end}
              onPointerCancel={drag.cancel}
              onKeyDown={(event) => {
                const by = arrow(event);
                if (event.key === "Delete") removeCorner(index, event);
                if (!by) return;
                event.preventDefault();
                drag.nudge(index, [by[0] * step(), by[1] * step()]);
              }}
              onKeyUp={drag.keyUp}
              onBlur={drag.keyUp}
            />
            <circle
              class="between"
              cx={mx}
              cy={my}
              r={span * 0.009}
              onClick={() =>
                void changeFrom(() => {
                  const now = drawnNow();
                  const [from, to] = [now?.[index], now?.[(index + 1) % (now.length || 1)]];
                  if (!from || !to) return [];
                  return [{ path: `${path}[${index + 2}]`, insert: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2].map(drawn) }];
                })
              }
            />
          </g>
        );
      })}
    </g>
  );
}

function sum(a: Spot, b: Spot): Spot {
  return [a[0] + b[0], a[1] + b[1]];
}
