// The order of the panels: dragged or moved by buttons and keys, with what it costs beside the best one, and put into the job
// or taken out of it.

import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import type { Build } from "../api/types";
import { Table } from "../parts/Table";
import { length } from "../show/figure";
import { written } from "../state/job";
import { costOrder, dropOrder, isCurrent, loadBuild, misfit, tried, tryOrder, writeOrder } from "../state/order";
import { words } from "../words";
import { moved } from "./play";
import { useDrag } from "./useDrag";

/** A panel that is moved, and the order that it is moved in. */
interface Taken {
  mark: string;
  order: readonly string[];
}

export function OrderList({ now, look }: { now: Build; look: (mark: string) => void }) {
  const list = useRef<HTMLOListElement>(null);
  const focus = useRef<string | null>(null);
  const say = words.weld.order;
  const marks = tried.value ?? now.panels.map((panel) => panel.mark);
  const drag = useDrag<Taken>((a, b) => a.mark === b.mark, ({ mark, order }, [, by]) => tryOrder(shifted(order, mark, by)));
  const held = drag.held;
  const heldMark = held?.what.mark ?? null;
  const heldBy = held?.by[1] ?? 0;
  const costed = useRef("");
  // The rows stay where they are while one is dragged: a row that is taken out of the page loses its pointer.
  const shown = held?.what.order ?? marks;

  useEffect(() => {
    // The cost of where it would be dropped, once a place.
    const place = held && !held.isDropped ? `${held.what.mark} ${held.by[1]}` : "";
    const before = costed.current;
    costed.current = place;
    if (held && place && place !== before) void costOrder(shifted(held.what.order, held.what.mark, held.by[1]));
    // Let go without a drop: what was shown before.
    if (!held && before) void costOrder(null);
  }, [held]);
  useLayoutEffect(() => {
    if (!focus.current || held) return;
    list.current?.querySelector<HTMLElement>(`[data-focus="${focus.current}"]`)?.focus();
    focus.current = null;
  });

  const from = heldMark === null ? -1 : shown.indexOf(heldMark);
  const target = Math.max(0, Math.min(shown.length - 1, from + heldBy));
  const isOwn = written("weld.order") !== undefined;
  const move = (place: number, to: number, key: string) => {
    if (!isCurrent.value || to < 0 || to >= marks.length) return;
    focus.current = `${marks[place]} ${key}`;
    void tryOrder(moved(marks, place, to));
  };
  /** How many rows a pointer is from the row that it began at. */
  const rows = (event: PointerEvent, mark: string): [number, number] => {
    const items = [...(list.current?.children ?? [])];
    const over = items.filter((item) => item.getBoundingClientRect().top <= event.clientY).length - 1;
    return [0, Math.max(0, over) - shown.indexOf(mark)];
  };
  const panelOf = new Map(now.panels.map((panel) => [panel.mark, panel]));
  const isKnown = misfit.value === null;

  return (
    <section class="order" aria-label={say.heading}>
      <h3>{say.heading}</h3>
      <p class="hint">{isCurrent.value ? say.hint : say.notYet}</p>
      <ol ref={list}>
        {shown.map((mark, place) => {
          const panel = panelOf.get(mark);
          const name = `${mark} ${panel?.name ?? ""}`;
          const isTarget = held !== null && place === target && target !== from;
          return (
            <li key={mark} class={[mark === heldMark && "held", isTarget && (target < from ? "above" : "below")].filter(Boolean).join(" ")}>
              <button
                type="button"
                class="quiet handle"
                data-focus={`${mark} drag`}
                aria-label={say.drag(name)}
                aria-disabled={!isCurrent.value}
                onPointerDown={(event) => isCurrent.value && drag.start(event, { mark, order: marks })}
                onPointerMove={(event) => drag.move(event, () => rows(event, mark))}
                onPointerUp={drag.end}
                onPointerCancel={drag.cancel}
                onKeyDown={(event) => {
                  const by = { ArrowUp: -1, ArrowDown: 1 }[event.key];
                  if (by === undefined || !isCurrent.value) return;
                  event.preventDefault();
                  focus.current = `${mark} drag`;
                  drag.nudge({ mark, order: held?.what.order ?? marks }, [0, by]);
                }}
                onKeyUp={drag.keyUp}
              >
                ⠿
              </button>
              <span class="named">
                <button type="button" class="plain" onClick={() => look(mark)}>
                  {place + 1}. {name}
                </button>
                {isKnown && panel?.text && <small>{panel.text}</small>}
              </span>
              <button type="button" class="quiet" data-focus={`${mark} up`} aria-label={say.up(name)} aria-disabled={place === 0 || !isCurrent.value} onClick={() => move(place, place - 1, "up")}>
                ▲
              </button>
              <button
                type="button"
                class="quiet"
                data-focus={`${mark} down`}
                aria-label={say.down(name)}
                aria-disabled={place === shown.length - 1 || !isCurrent.value}
                onClick={() => move(place, place + 1, "down")}
              >
                ▼
              </button>
            </li>
          );
        })}
      </ol>
      <div role="status" class="sums">
        {misfit.value !== null ? (
          <p class="warn">
            {say.refused} {misfit.value}
          </p>
        ) : (
          <Costs now={now} />
        )}
      </div>
      <div class="row">
        {tried.value !== null && isKnown && (
          <button type="button" class="main" aria-disabled={!isCurrent.value} onClick={() => isCurrent.value && void writeOrder()}>
            {say.write}
          </button>
        )}
        {tried.value !== null && (
          <button type="button" onClick={() => void loadBuild()}>
            {say.back}
          </button>
        )}
        {now.is_worse && isKnown && (
          <button type="button" aria-disabled={!isCurrent.value} onClick={() => isCurrent.value && void tryOrder(now.best.panels)}>
            {say.takeBest}
          </button>
        )}
        {isOwn && (
          <button type="button" onClick={() => void dropOrder()}>
            {say.takeOut}
          </button>
        )}
      </div>
    </section>
  );
}

/** What the order costs beside the best one found; the first row in which they differ decides. */
function Costs({ now }: { now: Build }) {
  const say = words.weld.order;
  const rows: [string, (cost: Build["cost"]) => string][] = [
    [say.unreached, (cost) => length(cost.unreached_m)],
    [say.unseen, (cost) => length(cost.unseen_m)],
    [say.loose, (cost) => `${cost.loose}`],
    [say.notSquare, (cost) => `${cost.not_square}`],
    [say.againstCustom, (cost) => `${cost.against_custom}`],
  ];
  return (
    <Table label={now.is_worse ? say.worse : say.noBetter} heads={[say.costs, say.own, say.best]}>
      {rows.map(([name, figure]) => (
        <tr key={name}>
          <th scope="row">{name}</th>
          <td class={figure(now.cost) === figure(now.best.cost) ? "figure" : "figure differs"}>{figure(now.cost)}</td>
          <td class="figure">{figure(now.best.cost)}</td>
        </tr>
      ))}
    </Table>
  );
}

function shifted(order: readonly string[], mark: string, by: number): string[] {
  const from = order.indexOf(mark);
  return moved(order, from, from + by);
}
