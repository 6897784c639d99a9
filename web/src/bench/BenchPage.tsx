// The bench view: one step per screen, for gloved hands.

import { useEffect, useState } from "preact/hooks";
import { ServerText } from "../parts/ServerText";
import { theme, setTheme } from "../state/theme";
import { withLanguage, words } from "../words";
import { Foot, State } from "./Foot";
import { keepOffline } from "./offline";
import { Notices, refusalText } from "./Notices";
import { openOutbox } from "./outbox";
import { keepAwake } from "./screen";
import { StepList } from "./StepList";
import { isAsked, job, openJob, refusal } from "./steps";
import { StepView } from "./StepView";
import { load, store } from "./store";
import { openWaits } from "./waits";

const { bench } = words;

/** The current step, by its id, since its index changes with the design. */
interface Place {
  id: string;
  index: number;
}

export function BenchPage({ name }: { name: string }) {
  const [place, setPlace] = useState<Place>(() => load(`brimful.place/${name}`) ?? { id: "", index: 0 });
  const [listed, setListed] = useState(false);
  useEffect(() => {
    keepAwake();
    void keepOffline().catch(() => undefined);
    const close = [openOutbox(name), openWaits(name), openJob(name)];
    return () => close.forEach((one) => one());
  }, [name]);

  const steps = job.value?.bench.steps ?? [];
  const title = job.value?.bench.title ?? name;
  const same = steps.findIndex(({ id }) => id === place.id);
  const here = same >= 0 ? same : Math.max(0, Math.min(place.index, steps.length - 1));
  const step = steps[here];
  useEffect(() => {
    document.title = step ? `${title} · ${bench.step(here + 1, steps.length)}` : title;
  }, [title, here, step, steps.length]);

  if (!job.value) {
    return (
      <main class="bench plain-page">
        <p role="status"><ServerText text={!isAsked.value ? words.wait : refusal.value ? refusalText(refusal.value) : bench.notHere} /></p>
        {isAsked.value && <State />}
        <p class="row">
          <WorkView name={name} />
          <a class="button" href={withLanguage("/")}>
            {words.top.back}
          </a>
        </p>
      </main>
    );
  }
  const go = (to: number) => {
    const index = Math.max(0, Math.min(steps.length - 1, to));
    const next = { id: steps[index]?.id ?? "", index };
    setPlace(next);
    setListed(false);
    store(`brimful.place/${name}`, next);
    scrollTo({ top: 0 });
  };
  const isListed = listed || !step;
  return (
    <div class="bench">
      <header>
        <WorkView name={name} />
        <h1 title={title}>{title}</h1>
        <button type="button" aria-expanded={isListed} onClick={() => setListed(!listed)}>
          {bench.step(here + 1, steps.length)}
          <span class="unseen"> {bench.steps}</span>
        </button>
        <button type="button" onClick={() => setTheme(theme.value === "dark" ? "light" : "dark")}>
          {theme.value === "dark" ? bench.light : bench.dark}
        </button>
      </header>
      <Notices job={job.value} />
      <main>
        {isListed ? <StepList job={job.value} at={here} go={go} /> : <StepView key={step.id} name={name} job={job.value} at={here} step={step} />}
      </main>
      <Foot job={job.value} at={here} isListed={isListed} go={go} />
    </div>
  );
}

function WorkView({ name }: { name: string }) {
  return (
    <a class="button" href={withLanguage(`/job/${encodeURIComponent(name)}`)}>
      {bench.back}
    </a>
  );
}
