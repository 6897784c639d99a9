// Will it hold: bulge and utilisation as colours on the body, the worst places, and what would fix them.

import { useComputed, useSignal } from "@preact/signals";
import { useRef } from "preact/hooks";
import type { Point } from "../api/types";
import { Choice } from "../parts/Choice";
import { Stage } from "../parts/Stage";
import { Table } from "../parts/Table";
import { utilisationColour } from "../show/colours";
import { movement, percent } from "../show/figure";
import { ends } from "../show/seam";
import { select, selection } from "../state/selection";
import { loadCase, model, plan, showLoad } from "../state/job";
import type { Label, Look } from "../solid/scene";
import { View3d } from "../solid/View3d";
import { words } from "../words";
import { HoldForm } from "./Forms";
import { Remedies } from "./Remedies";
import { RoomKept } from "./RoomKept";
import { Slider } from "./Tank";
import { loadCases, utilisations, type Utilisation } from "./utilisation";

export function Hold() {
  const shows = useSignal<"use" | "bulge">("use");
  const spot = useSignal<Point | null>(null);
  const picture = useRef<HTMLDivElement>(null);
  const chosenScale = useSignal<number | null>(null);
  const lines = useComputed(() => (plan.value ? utilisations(plan.value, loadCase.value) : []));
  const most = useComputed(() => Math.max(1e-9, ...lines.value.map((line) => line.bulge_m ?? 0)));
  const scale = useComputed(() => chosenScale.value ?? defaultScale(most.value));
  const colourOf = (line: Utilisation) => (shows.value === "use" ? utilisationColour(line.use) : utilisationColour(line.bulge_m === null ? null : line.bulge_m / most.value));
  const look = useComputed<Look>(() => ({
    explode: 0,
    cut: null,
    colours: new Map(lines.value.map((line) => [line.mark, colourOf(line)])),
    tints: new Map(
      model.value?.bulge?.panels.map(({ mark, displacement_m, utilisation }) => [
        mark,
        shows.value === "use" ? utilisation.map(utilisationColour) : displacement_m.map((move) => utilisationColour(Math.hypot(...move) / most.value)),
      ]),
    ),
    lit: selection.value,
    seams: (plan.value?.seams ?? []).flatMap((seam) => {
      const line = lines.value.find((one) => one.mark === seam.mark);
      const [from, to] = ends(seam) ?? [];
      const colour = selection.value.includes(seam.mark) ? "#12507e" : line ? utilisationColour(line.use) : "#8b8f8c";
      return from && to ? [{ from, to, colour }] : [];
    }),
    bulge: model.value?.bulge ? scale.value : 0,
    spot: spot.value,
    liquid: null,
    faint: false,
  }));
  const labels = useComputed<Label[]>(() =>
    lines.value
      .filter((line, index) => index < 6 || selection.value.includes(line.mark))
      .map((line) => ({ mark: line.mark, text: `${line.mark} ${figure(line, shows.value)}`, at: line.at_m ?? middleOfSeam(line.mark) })),
  );
  /** Highlights a place and scrolls to the picture. */
  const show = (line: Utilisation) => {
    select(line.mark);
    spot.value = line.at_m ?? (line.bulge_m === null ? middleOfSeam(line.mark) : null);
    const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    picture.current?.scrollIntoView({ behavior: calm ? "instant" : "smooth", block: "nearest" });
  };
  return (
    <Stage id="hold">
      <div class="two">
        <div class="picture" ref={picture}>
          <View3d look={look.value} labels={labels.value} label={words.stages.hold.lead} pick={(mark) => select(mark)} />
          <Legend shows={shows.value} />
          <div class="knobs">
            <Choice label={words.hold.colours} value={shows.value} options={[["use", words.hold.use], ["bulge", words.hold.bulge]]} choose={(to) => (shows.value = to)} />
            <label class="field">
              {words.hold.loadCase}
              <select value={loadCase.value ?? ""} onChange={(event) => void showLoad(event.currentTarget.value || null)}>
                <option value="">{words.hold.worstCase}</option>
                {plan.value && [...loadCases(plan.value)].map(([id, name]) => <option key={id} value={id}>{name}</option>)}
              </select>
            </label>
            {model.value?.bulge && <Slider label={words.hold.bulgeScale} value={scale.value} max={50} step={1} shown={`× ${scale.value}`} set={(to) => (chosenScale.value = to)} />}
          </div>
          {model.value?.bulge && <p class="hint">{words.hold.drawn(model.value.bulge.load_case.name)}</p>}
          {plan.value && !plan.value.strength.whole && <p class="hint">{words.hold.draft}</p>}
        </div>
        <div class="sizes-typed">
          <Worst lines={lines.value.slice(0, 6)} label={words.hold.worst} show={show} />
          <Worst lines={bulging(lines.value)} label={words.hold.mostBulge} show={show} />
          <RoomKept />
          <Remedies />
          <HoldForm />
        </div>
      </div>
    </Stage>
  );
}

/** Panels by how far they bulge, the most first. */
function bulging(lines: readonly Utilisation[]): Utilisation[] {
  return lines
    .filter((line) => line.bulge_m !== null)
    .sort((a, b) => b.bulge_m! - a.bulge_m!)
    .slice(0, 4);
}

function Worst({ lines, label, show }: { lines: readonly Utilisation[]; label: string; show: (line: Utilisation) => void }) {
  const name = (mark: string) => plan.value?.panels.find((panel) => panel.mark === mark)?.name ?? joins(mark);
  return (
    <Table label={label} heads={[words.hold.place, words.hold.works, words.hold.bulges, words.hold.loadCase]}>
      {lines.map((line) => (
        <tr key={line.mark} class={selection.value.includes(line.mark) ? "lit" : ""}>
          <th scope="row">
            <button type="button" class="plain" onClick={() => show(line)}>
              {line.mark} {name(line.mark)}
            </button>
          </th>
          <td class={line.use === null || line.use > 1 ? "over" : ""}>{line.use === null ? words.hold.notCovered : percent(line.use)}</td>
          <td class="figure">{line.bulge_m === null ? "" : movement(line.bulge_m)}</td>
          <td>{line.loadCase}</td>
        </tr>
      ))}
    </Table>
  );
}

/** A scale at which the largest bulge is easy to see and the tank still looks like itself. */
function defaultScale(most_m: number): number {
  const sides = plan.value?.panels.map((panel) => Math.max(...panel.cut.size_m)) ?? [];
  const drawn = Math.max(...sides) / 12;
  return [50, 20, 10, 5, 2].find((scale) => scale * most_m <= drawn) ?? 1;
}

function Legend({ shows }: { shows: "use" | "bulge" }) {
  const steps = shows === "use" ? [0, 0.5, 1, 1.01] : [0, 0.5, 1];
  return (
    <ul class="legend" aria-label={words.hold.colours}>
      {steps.map((use) => (
        <li key={use}>
          <i style={{ background: utilisationColour(use) }} /> {use > 1 ? `> ${percent(1)}` : percent(use)}
        </li>
      ))}
      <li>{words.hold.legend[shows]}</li>
    </ul>
  );
}

function figure(line: Utilisation, shows: "use" | "bulge"): string {
  if (shows === "bulge" && line.bulge_m !== null) return movement(line.bulge_m);
  return line.use === null ? words.hold.notCovered : percent(line.use);
}

function joins(mark: string): string {
  const seam = plan.value?.seams.find((one) => one.mark === mark);
  return seam?.panels.map((panel) => plan.value?.panels.find((one) => one.mark === panel)?.name).join(" – ") ?? "";
}

function middleOfSeam(mark: string): [number, number, number] {
  const seam = plan.value?.seams.find((one) => one.mark === mark);
  const [from, to] = (seam && ends(seam)) ?? [];
  return from && to ? [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2] : [0, 0, 0];
}
