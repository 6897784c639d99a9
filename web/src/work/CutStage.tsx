// How to cut it: each sheet to scale, and its cuts step by step with the fence setting.

import { useState } from "preact/hooks";
import type { Cut, Layout } from "../api/types";
import { Stage } from "../parts/Stage";
import { Stepper } from "../parts/Stepper";
import { length, sheetThickness, size } from "../show/figure";
import { select, selection } from "../state/selection";
import { plan } from "../state/job";
import { words } from "../words";
import { StockForm } from "./Forms";

export function CutStage() {
  const sheets = plan.value?.cut.groups.flatMap((group) => group.layouts.map((layout) => ({ group, layout }))) ?? [];
  return (
    <Stage id="cut">
      <div class="two">
        <div class="picture">
          {sheets.length === 0 && <p class="empty">{words.cut.none}</p>}
          {sheets.map(({ group, layout }, index) => (
            <SheetView key={index} layout={layout} thickness={group.thickness_m} number={index + 1} />
          ))}
          {plan.value?.cut.groups.map((group) => (
            <p key={group.thickness_m}>
              {sheetThickness(group.thickness_m)}: {words.cut.verdict} {group.verdict}.{" "}
              {group.left_out.length > 0 && <strong>{words.cut.leftOut(group.left_out.map((one) => `${one.panel} (${one.why})`).join(", "))}</strong>}
            </p>
          ))}
        </div>
        <div class="sizes-typed">
          <StockForm />
        </div>
      </div>
    </Stage>
  );
}

function SheetView({ layout, thickness, number }: { layout: Layout; thickness: number; number: number }) {
  const [step, setStep] = useState(0);
  const cut = layout.cuts[Math.min(step, layout.cuts.length - 1)];
  const { length_m: long, width_m: wide } = layout;
  const pen = Math.max(long, wide) / 260;
  const title = words.cut.sheet(number, `${size([long, wide])}, ${sheetThickness(thickness)}`);
  const nameOf = (mark: string) => plan.value?.panels.find((panel) => panel.mark === mark)?.name ?? "";
  // The sheet's y axis points up, that of SVG down.
  const down = (at: number, high: number) => wide - at - high;
  return (
    <figure class="sheet">
      <figcaption>{title}</figcaption>
      <svg viewBox={`${-pen * 3} ${-pen * 3} ${long + pen * 6} ${wide + pen * 6}`} role="img" aria-label={title} style={{ "--pen": pen }}>
        <rect class="stock" width={long} height={wide} />
        {layout.offcuts.map(({ at_m, size_m }, index) => (
          <rect key={index} class="offcut" x={at_m[0]} y={down(at_m[1], size_m[1])} width={size_m[0]} height={size_m[1]} />
        ))}
        {layout.parts.map(({ panel, place: { at_m, size_m } }) => {
          const name = `${panel} ${nameOf(panel)}`;
          // The unit is in the caption.
          const measure = size(size_m).replace(/ [a-z]+$/, "");
          const letters = Math.max(name.length, measure.length);
          const fit = (count: number) => [fontFor(size_m[0], size_m[1], count), fontFor(size_m[1], size_m[0], count)] as const;
          const isTurned = fit(letters)[1] > 1.3 * fit(letters)[0];
          // Where the text would be too small to read, only the mark is shown; the list has the rest.
          const isCramped = Math.max(...fit(letters)) < pen * 4;
          const font = Math.min(pen * (isCramped ? 6 : 10), fit(isCramped ? panel.length * 2 : letters)[isTurned ? 1 : 0]);
          const [x, y] = [at_m[0] + size_m[0] / 2, down(at_m[1], size_m[1]) + size_m[1] / 2];
          return (
            <g key={panel} class={selection.value.includes(panel) ? "part lit" : "part"} onClick={() => select(panel)}>
              <rect x={at_m[0]} y={down(at_m[1], size_m[1])} width={size_m[0]} height={size_m[1]} />
              <g transform={isTurned ? `rotate(-90 ${x} ${y})` : undefined}>
                <text x={x} y={isCramped ? y : y - font * 0.6} font-size={font}>
                  {isCramped ? panel : name}
                </text>
                {!isCramped && (
                  <text x={x} y={y + font * 0.7} font-size={font * 0.9}>
                    {measure}
                  </text>
                )}
              </g>
            </g>
          );
        })}
        {cut && <CutLine cut={cut} wide={wide} />}
      </svg>
      {cut && (
        <>
          <Stepper
            at={step}
            count={layout.cuts.length}
            label={words.cut.cutN(cut.number, layout.cuts.length)}
            before={words.cut.before}
            next={words.cut.next}
            go={setStep}
          />
          <p>
            {words.cut.fence(length(cut.fence_m), words.cut.edges[cut.against])}, {words.cut.runs[cut.runs]}. {words.cut.piece(size(cut.piece.size_m))} {words.cut.againstFence}
          </p>
        </>
      )}
      <details>
        <summary>{words.cut.parts}</summary>
        <ul>
          {layout.parts.map(({ panel, place }) => (
            <li key={panel}>
              {panel} {nameOf(panel)}: {size(place.size_m)}
            </li>
          ))}
        </ul>
      </details>
    </figure>
  );
}

/** The largest font size at which two lines of so many letters fit. */
function fontFor(wide: number, high: number, letters: number): number {
  return Math.min(high / 3.2, (wide * 1.45) / letters);
}

function CutLine({ cut, wide }: { cut: Cut; wide: number }) {
  const {
    piece: { at_m, size_m },
    runs,
    against,
    fence_m,
  } = cut;
  const lengthways = runs === "along length";
  const across = lengthways ? 1 : 0;
  const place = against === "near" ? at_m[across] + fence_m : at_m[across] + size_m[across] - fence_m;
  const fence = against === "near" ? at_m[across] : at_m[across] + size_m[across];
  const line = lengthways
    ? { x1: at_m[0], x2: at_m[0] + size_m[0], y1: wide - place, y2: wide - place }
    : { x1: place, x2: place, y1: wide - at_m[1], y2: wide - at_m[1] - size_m[1] };
  const edge = lengthways
    ? { ...line, y1: wide - fence, y2: wide - fence }
    : { ...line, x1: fence, x2: fence };
  return (
    <g class="cut-now">
      <rect x={at_m[0]} y={wide - at_m[1] - size_m[1]} width={size_m[0]} height={size_m[1]} />
      <line class="fence" {...edge} />
      <line {...line} />
    </g>
  );
}
