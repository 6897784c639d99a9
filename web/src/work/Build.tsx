// The build played in 3D: panels appear in order, runs are laid place by place, with gun, hand and arm as solids, and what
// keeps them away where they do not get there.

import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Build as BuildAnswer, BuildPlace, BuildRun, Pose } from "../api/types";
import { StepDetails } from "../parts/StepDetails";
import { Stepper } from "../parts/Stepper";
import { POSE_COLOURS, REACH_COLOURS } from "../show/colours";
import { hours, length } from "../show/figure";
import { ends } from "../show/seam";
import { View3d } from "../solid/View3d";
import type { Label, Look } from "../solid/scene";
import { model, plan } from "../state/job";
import { posesOf, tried } from "../state/order";
import { words } from "../words";
import { framesOf, laid, stretches, timeOf, type Frame, type Laid } from "./play";
import { Corners, Held } from "./Held";
import { Slider } from "./Tank";
import { Welds } from "./Welds";

/** The panels that stand, the one that is set, and those in the way. */
const PANEL_COLOURS = { standing: "#d9d5c7", set: "#9fc3d6", inTheWay: "#e3938b" };
/** Runs that are laid already, and seams that are tacked. */
const LAID_COLOUR = "#6b7378";
const TACKED_COLOUR = "#12507e";
const NO_POSES: readonly (Pose | null)[] = [];

/** A panel to be looked at as it is set; each request is another one. */
export interface Wanted {
  mark: string;
}

export function Build({ now, wanted }: { now: BuildAnswer; wanted: Wanted | null }) {
  const frames = useMemo(() => framesOf(now.steps), [now]);
  const [chosen, setAt] = useState(0);
  const [isPlaying, setPlaying] = useState(false);
  const at = Math.min(chosen, frames.length - 1);
  const frame = frames[at]!;
  const step = now.steps[frame.step]!;
  const toStep = (number: number) => {
    setPlaying(false);
    setAt(frames.findIndex((one) => one.step === number));
  };

  useEffect(() => {
    if (!isPlaying) return;
    const next = () => (at + 1 < frames.length ? setAt(at + 1) : setPlaying(false));
    const timer = setTimeout(next, timeOf(frame));
    return () => clearTimeout(timer);
  }, [isPlaying, at, frames, frame]);

  // Once a request: a new order leaves the step that is looked at.
  const answered = useRef<Wanted | null>(null);
  useEffect(() => {
    if (!wanted || answered.current === wanted) return;
    answered.current = wanted;
    const number = now.steps.findIndex((one) => one.work === "set" && one.panels.includes(wanted.mark));
    if (number < 0) return;
    setPlaying(false);
    setAt(frames.findIndex((one) => one.step === number));
  }, [wanted, now, frames]);

  const run = frame.spot ? step.runs[frame.spot.run]! : null;
  const place = frame.spot && run ? run.places[frame.spot.place]! : null;
  const poses = usePoses(run, step.before);
  const pose = (frame.spot && poses[frame.spot.place]) ?? null;
  const look = useMemo(() => lookAt(now, frame, pose), [now, frame, pose]);
  // The panel that is set, and what is in the way, by name in the picture.
  const labels = useMemo(() => (run ? look.lit : step.panels).map((mark): Label => ({ mark, text: `${mark} ${nameOf(mark)}`, at: [0, 0, 0] })), [run, look, step]);
  const first = frames.findIndex((one) => one.step === frame.step);
  const count = frames.filter((one) => one.step === frame.step).length;
  const play = () => {
    if (!isPlaying && at === frames.length - 1) setAt(0);
    setPlaying(!isPlaying);
  };

  return (
    <div class="build">
      <View3d look={look} labels={labels} label={words.weld.scene} />
      <div class="player">
        <Stepper
          at={frame.step}
          count={now.steps.length}
          label={`${words.weld.stepN(frame.step + 1, now.steps.length)}: ${step.title}`}
          before={words.weld.before}
          next={words.weld.next}
          go={toStep}
        />
        <button type="button" class="main" onClick={play}>
          {isPlaying ? `❚❚ ${words.weld.pause}` : `▶ ${words.weld.play}`}
        </button>
      </div>
      {run && place && (
        <>
          <Slider
            label={words.weld.along}
            value={at - first}
            max={count - 1}
            step={1}
            shown={`${run.seam} · ${length(place.along_m)}`}
            set={(to) => {
              setPlaying(false);
              setAt(first + to);
            }}
          />
          <Reach run={run} place={place} inTheWay={blocked(place, pose)} />
          <Legend pose={pose} />
        </>
      )}
      <p class="says">{step.text}</p>
      {plan.value && (
        <>
          {tried.value === null && <Held plan={plan.value} panels={step.panels} work={step.work} />}
          <Welds plan={plan.value} seams={step.seams} work={step.work} />
          {tried.value === null && <Corners plan={plan.value} seams={step.seams} work={step.work} />}
        </>
      )}
      <StepDetails step={step}>
        {step.wait_s !== null && <p>{words.weld.wait(hours(step.wait_s))}</p>}
      </StepDetails>
    </div>
  );
}

/** A pose at each place of a run, once the server has found them. */
function usePoses(run: BuildRun | null, standing: readonly string[]): readonly (Pose | null)[] {
  const [found, setFound] = useState<{ run: BuildRun; poses: readonly (Pose | null)[] } | null>(null);
  useEffect(() => {
    if (!run) return;
    let isGone = false;
    void posesOf(run, standing).then((poses) => !isGone && setFound({ run, poses }));
    return () => {
      isGone = true;
    };
  }, [run, standing]);
  return found?.run === run ? found.poses : NO_POSES;
}

/** What the pose that is drawn runs into; until it is known, the fewest panels that are in the way. */
function blocked(place: BuildPlace, pose: Pose | null): string[] {
  return pose && place.in_the_way.length > 0 ? pose.in_the_way : place.in_the_way;
}

/** What is said of a place in words: colour never says it alone. */
function Reach({ run, place, inTheWay }: { run: BuildRun; place: BuildPlace; inTheWay: readonly string[] }) {
  const how = laid(place);
  const panels = inTheWay.map((mark) => `${mark} ${nameOf(mark)}`).join(", ");
  const side = run.side === "inside" ? words.weld.inside : words.weld.outside;
  return (
    <output class={how === "unreached" ? "reach out" : "reach"} aria-live="polite">
      <i style={{ background: REACH_COLOURS[how] }} />
      {`${run.seam} ${side}, ${length(place.along_m)}: ${words.weld.laid[how]}`}
      {panels && ` ${words.weld.inTheWay(panels)}`}
      {place.is_end && how === "unreached" && ` ${words.weld.atEnd}`}
    </output>
  );
}

function Legend({ pose }: { pose: Pose | null }) {
  const parts = [...new Set(pose?.solids.map((solid) => solid.part))];
  return (
    <ul class="legend">
      {(Object.keys(REACH_COLOURS) as Laid[]).map((how) => (
        <li key={how}>
          <i style={{ background: REACH_COLOURS[how] }} /> {words.weld.laid[how]}
        </li>
      ))}
      {parts.map((part) => (
        <li key={part}>
          <i style={{ background: POSE_COLOURS[part] }} /> {words.weld.parts[part]}
        </li>
      ))}
    </ul>
  );
}

function nameOf(mark: string): string {
  return model.value?.panels.find((panel) => panel.mark === mark)?.name ?? "";
}

function lookAt(now: BuildAnswer, frame: Frame, pose: Pose | null): Look {
  const step = now.steps[frame.step]!;
  const run = frame.spot ? step.runs[frame.spot.run]! : null;
  const inTheWay = frame.spot && run ? blocked(run.places[frame.spot.place]!, pose) : [];
  const colour = (mark: string) => {
    if (inTheWay.includes(mark)) return PANEL_COLOURS.inTheWay;
    return step.panels.includes(mark) ? PANEL_COLOURS.set : PANEL_COLOURS.standing;
  };
  const before = step.runs.slice(0, frame.spot?.run ?? 0);
  const turns = now.steps.slice(0, frame.step + 1).filter((one) => one.work === "turn").length;
  const tacked = step.runs.length > 0 ? [] : (plan.value?.seams ?? []).filter((seam) => step.seams.includes(seam.mark));
  return {
    explode: 0,
    cut: null,
    colours: new Map(step.after.map((mark) => [mark, colour(mark)])),
    tints: new Map(),
    lit: inTheWay,
    seams: [
      ...before.map(({ line_m: [from, to] }) => ({ from, to, colour: LAID_COLOUR })),
      ...(run ? stretches(run) : []).map(({ from, to, laid: how }) => ({ from, to, colour: REACH_COLOURS[how] })),
      ...tacked.flatMap((seam) => {
        const [from, to] = ends(seam) ?? [];
        return from && to ? [{ from, to, colour: TACKED_COLOUR }] : [];
      }),
    ],
    bulge: 0,
    spot: null,
    liquid: null,
    faint: run !== null,
    shown: new Set(step.after),
    capsules: (pose?.solids ?? []).map(({ part, from_m, to_m, radius_m }) => ({ from: from_m, to: to_m, radius: radius_m, colour: POSE_COLOURS[part] })),
    isTurned: turns % 2 === 1,
  };
}
