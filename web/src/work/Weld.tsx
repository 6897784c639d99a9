// How to weld it: the order of work step by step, with the panels set so far, and the settings.

import { useSignal, useSignalEffect } from "@preact/signals";
import { useState } from "preact/hooks";
import type { Plan } from "../api/types";
import { Lines } from "../parts/Lines";
import { Stage } from "../parts/Stage";
import { StepPicture } from "../parts/StepPicture";
import { Stepper } from "../parts/Stepper";
import { degrees, hours, length, mass, number, range, run } from "../show/figure";
import { model, plan } from "../state/job";
import { build, checkedEtag, isPlayable, loadBuild } from "../state/order";
import { system } from "../state/units";
import { words } from "../words";
import { Build, type Wanted } from "./Build";
import { RatesForm, ShopForm } from "./Forms";
import { Corners, Held } from "./Held";
import { OrderList } from "./OrderList";
import { Welds } from "./Welds";

export function Weld() {
  const wanted = useSignal<Wanted | null>(null);
  // The build is asked for once the whole tank has been checked, and again in other units.
  useSignalEffect(() => {
    void system.value;
    if (checkedEtag.value) void loadBuild();
  });
  const now = plan.value;
  const played = build.value;
  return (
    <Stage id="weld">
      <div class="two">
        <div class="picture">
          {played && isPlayable.value ? <Build now={played} wanted={wanted.value} /> : now && <Steps plan={now} />}
        </div>
        <div class="sizes-typed">
          {played && isPlayable.value && <OrderList now={played} look={(mark) => (wanted.value = { mark })} />}
          {now && <Settings plan={now} />}
          <ShopForm />
        </div>
      </div>
    </Stage>
  );
}

/** The steps of a draft, and of a tank whose reach is not known. */
function Steps({ plan }: { plan: Plan }) {
  const [at, setAt] = useState(0);
  const step = plan.weld.steps[Math.min(at, plan.weld.steps.length - 1)];
  if (!step) return null;
  return (
    <>
      <StepPicture steps={plan.weld.steps} at={at} panels={model.value?.panels ?? []} seams={plan.seams} />
      <Stepper
        at={at}
        count={plan.weld.steps.length}
        label={`${words.weld.stepN(at + 1, plan.weld.steps.length)}: ${step.work}`}
        before={words.weld.before}
        next={words.weld.next}
        go={setAt}
      />
      <p class="says">{step.text}</p>
      <Held plan={plan} panels={step.panels} work={step.work} />
      <Welds plan={plan} seams={step.seams} work={step.work} />
      <Corners plan={plan} seams={step.seams} work={step.work} />
    </>
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
          <div key={`${one.tool} ${one.quantity}`}>
            <dt>
              {one.tool_text}: {one.quantity}
            </dt>
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
