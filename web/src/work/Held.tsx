// What holds a panel while it is set, and how the runs of a step pass the corners that they come to.

import type { BenchStep, Plan } from "../api/types";
import { Lines } from "../parts/Lines";
import { words } from "../words";
import { SIDES } from "./Welds";

/** What holds the panels that a step sets. */
export function Held({ plan, panels, work }: { plan: Plan; panels: readonly string[]; work: BenchStep["work"] }) {
  const held = plan.weld.fixtures.holdings.filter((one) => work === "set" && panels.includes(one.panel));
  return <Lines title={words.weld.heldBy} lines={held.flatMap((one) => one.text)} />;
}

/** How the runs of a step pass the corners that they come to. */
export function Corners({ plan, seams, work }: { plan: Plan; seams: readonly string[]; work: BenchStep["work"] }) {
  const own = plan.weld.corners.filter((one) => one.side === SIDES[work] && one.passes.some((pass) => seams.includes(pass.seam)));
  return <Lines title={words.weld.corners} lines={[...new Set(own.map((one) => one.text))]} />;
}
