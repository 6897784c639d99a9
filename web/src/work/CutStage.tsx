// How to cut it: each sheet to scale, and its cuts one after another with their fence.

import { useState } from "preact/hooks";
import type { Cut, Layout } from "../api/types";
import { Stage } from "../parts/Stage";
import { Stepper } from "../parts/Stepper";
import { length, size } from "../show/figure";
import { choose, chosen } from "../state/chosen";
import { plan } from "../state/job";
import { words } from "../words/en";
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
              {length(group.thickness_m)}: {words.cut.verdict} {group.verdict}.{" "}
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
  const title = words.cut.sheet(number, `${size([long, wide])}, ${length(thickness)}`);
  const nameOf = (mark: string) => plan.value?.panels.find((panel) => panel.mark === mark)?.name ?? "";
  // The sheet's y runs up; paper's runs down.
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
          const measure = size(size_m);
          const font = Math.min(pen * 10, size_m[1] / 4, (size_m[0] * 1.6) / Math.max(name.length, measure.length));
          const [x, y] = [at_m[0] + size_m[0] / 2, down(at_m[1], size_m[1]) + size_m[1] / 2];
          return (
            <g key={panel} class={chosen.value.includes(panel) ? "part lit" : "part"} onClick={() => choose(panel)}>
              <rect x={at_m[0]} y={down(at_m[1], size_m[1])} width={size_m[0]} height={size_m[1]} />
              <text x={x} y={y} font-size={font}>
                {name}
              </text>
              <text x={x} y={y + font * 1.3} font-size={font * 0.9}>
                {measure}
              </text>
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
            {words.cut.fence(length(cut.fence_m), words.cut.edges[cut.against])}, {words.cut.runs[cut.runs]}. {size(cut.piece.size_m)}. {words.cut.againstFence}
          </p>
        </>
      )}
    </figure>
  );
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
