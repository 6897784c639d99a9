// How to weld it: the order of work step by step, with the panels set so far, and the settings.

import { useState } from "preact/hooks";
import type { Plan, Step } from "../api/types";
import { Lines } from "../parts/Lines";
import { Stage } from "../parts/Stage";
import { StepPicture } from "../parts/StepPicture";
import { Stepper } from "../parts/Stepper";
import { degrees, hours, length, mass, number, range, run, speed } from "../show/figure";
import { select } from "../state/selection";
import { model, plan } from "../state/job";
import { words } from "../words";
import { RatesForm, ShopForm } from "./Forms";

export function Weld() {
  const [at, setAt] = useState(0);
  const now = plan.value;
  const step = now?.weld.steps[Math.min(at, now.weld.steps.length - 1)];
  return (
    <Stage id="weld">
      <div class="two">
        <div class="picture">
          {now && step && (
            <>
              <StepPicture steps={now.weld.steps} at={at} panels={model.value?.panels ?? []} seams={now.seams} />
              <Stepper
                at={at}
                count={now.weld.steps.length}
                label={`${words.weld.stepN(at + 1, now.weld.steps.length)}: ${step.work}`}
                before={words.weld.before}
                next={words.weld.next}
                go={setAt}
              />
              <p class="says">{step.text}</p>
              <Held plan={now} at={Math.min(at, now.weld.steps.length - 1)} />
              <Welds plan={now} seams={step.seams} work={step.work} />
              <Corners plan={now} seams={step.seams} work={step.work} />
            </>
          )}
        </div>
        <div class="sizes-typed">
          {now && <Settings plan={now} />}
          <ShopForm />
        </div>
      </div>
    </Stage>
  );
}

/** From which side a step lays its welds. */
const SIDES: Partial<Record<Step["work"], "inside" | "outside">> = { "weld inside": "inside", "weld outside": "outside" };

/** What holds the panel that a step sets. */
function Held({ plan, at }: { plan: Plan; at: number }) {
  const held = plan.weld.fixtures.holdings.find((one) => one.step === at);
  if (held === undefined) return null;
  return <Lines title={words.weld.heldBy} lines={held.text} />;
}

/** How the runs of a step pass the corners that they come to. */
function Corners({ plan, seams, work }: { plan: Plan; seams: readonly string[]; work: Step["work"] }) {
  const own = plan.weld.corners.filter((one) => one.side === SIDES[work] && one.passes.some((pass) => seams.includes(pass.seam)));
  return <Lines title={words.weld.corners} lines={[...new Set(own.map((one) => one.text))]} />;
}

function Welds({ plan, seams, work }: { plan: Plan; seams: readonly string[]; work: Step["work"] }) {
  const lines = plan.weld.welds.filter((weld) => seams.includes(weld.seam) && weld.side === SIDES[work]);
  if (lines.length === 0) return null;
  return (
    <div class="table-wrap" tabIndex={0} role="region" aria-label={words.weld.seams}>
      <table>
        <caption>{words.weld.seams}</caption>
        <thead>
          <tr>
            <th scope="col">{words.weld.seam}</th>
            <th scope="col">{words.weld.length}</th>
            <th scope="col">{words.weld.runs}</th>
            <th scope="col">{words.weld.speed}</th>
            <th scope="col">{words.weld.prep}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((weld) => (
            <tr key={weld.seam}>
              <th scope="row">
                <button type="button" class="plain" onClick={() => select(weld.seam)}>
                  {weld.seam}
                </button>
              </th>
              <td>{length(weld.length_m)}</td>
              <td>{weld.runs}</td>
              <td title={words.weld.boundBy[weld.speed_bound]}>{speed(weld.speed_m_s)}</td>
              <td>{weld.preparation}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** The working time line by line, each with its amount and its rate. */
function Sum({ plan }: { plan: Plan }) {
  return (
    <div class="table-wrap" tabIndex={0} role="region" aria-label={words.weld.time}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.weld.work}</th>
            <th scope="col">{words.weld.amount}</th>
            <th scope="col">{words.weld.rate}</th>
            <th scope="col">{words.weld.time}</th>
          </tr>
        </thead>
        <tbody>
          {plan.weld.hours.map((one) => (
            <tr key={one.kind}>
              <th scope="row">{one.what}</th>
              <td>{one.quantity_unit === "count" ? number(one.quantity, 0) : `${number(one.quantity, 1)} ${one.quantity_unit}`}</td>
              <td>{one.rate}</td>
              <td>{hours(one.time_s)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Settings({ plan }: { plan: Plan }) {
  return (
    <>
      <h3>{words.weld.settings}</h3>
      <dl class="settings">
        {plan.weld.settings.map((one) => (
          <div key={one.quantity}>
            <dt>{one.quantity}</dt>
            <dd title={one.source}>
              {range(one.low, one.high, one.unit)}
            </dd>
          </div>
        ))}
        {plan.weld.rods.map((rod) => (
          <div key={rod.diameter_m}>
            <dt>
              {words.weld.rod} {length(rod.diameter_m)}
            </dt>
            <dd>
              {words.weld.rodSum(run(rod.length_m), mass(rod.mass_kg))}
              {rod.coils !== null && <>; {words.weld.coils(rod.coils)}</>}
            </dd>
          </div>
        ))}
      </dl>
      {plan.weld.fixtures.blocks.length > 0 && (
        <Lines
          title={words.weld.blocks}
          lines={plan.weld.fixtures.blocks.map((one) => words.weld.block(one.mark, one.count, degrees(one.angle_rad)))}
        />
      )}
      {plan.weld.heat && <p>{plan.weld.heat.text}</p>}
      {plan.weld.heat && (
        <dl class="settings">
          {plan.weld.heat.waits.map((one) => (
            <div key={one.thickness_m}>
              <dt>{words.weld.clampsOff(length(one.thickness_m))}</dt>
              <dd>{hours(one.clamps_s)}</dd>
            </div>
          ))}
        </dl>
      )}
      <details>
        <summary>
          {words.weld.time}: {hours(plan.weld.hours_total_s)}
        </summary>
        <Sum plan={plan} />
        <p>{words.weld.waiting(hours(plan.weld.waits_total_s))}</p>
        <dl class="settings">
          {plan.weld.waits.map((one) => (
            <div key={one.kind}>
              <dt>{one.what}</dt>
              <dd>{hours(one.time_s)}</dd>
            </div>
          ))}
        </dl>
        <RatesForm />
      </details>
      <details>
        <summary>{words.weld.cautions}</summary>
        <ul class="cautions">
          {plan.weld.cautions.map((one) => (
            <li key={one.about}>
              <strong>{one.about}</strong>: {one.text}
            </li>
          ))}
        </ul>
      </details>
    </>
  );
}
