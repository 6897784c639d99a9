// The list of jobs, and the form for a new one.

import { useEffect, useId, useState } from "preact/hooks";
import { ask, jobPath, Refusal } from "../api/client";
import type { About, JobAnswer, JobLine } from "../api/types";
import { withLanguage, words } from "../words";

const { jobs } = words;

export function JobsPage() {
  const [list, setList] = useState<JobLine[] | null>(null);
  const [trouble, setTrouble] = useState("");
  const [code, setCode] = useState<string | null>(null);
  useEffect(() => {
    document.title = `${jobs.heading} · ${words.title}`;
    ask<JobLine[]>("jobs")
      .then(setList)
      .catch(() => setTrouble(words.noServer));
    void ask<About>("about")
      .then((about) => setCode(about.code))
      .catch(() => undefined);
  }, []);
  return (
    <main class="plain-page">
      <h1>{jobs.heading}</h1>
      <p>{jobs.lead}</p>
      {code && <p class="code">{words.enter.forOthers(code)}</p>}
      {trouble && <p role="alert">{trouble}</p>}
      {list?.length === 0 && <p class="empty">{jobs.none}</p>}
      <ul class="jobs">
        {list?.map((job) => (
          <li key={job.name}>
            <a href={withLanguage(`/job/${encodeURIComponent(job.name)}`)}>{job.title || job.name}</a>
            <small>
              {/* The file name tells apart jobs of the same name. */}
              {job.title && job.title !== job.name && `${job.name} · `}
              {job.fault ? jobs.faulty : jobs.changed(new Date(job.changed_s * 1000).toLocaleString())}
            </small>
            <a class="button" href={withLanguage(`/bench/${encodeURIComponent(job.name)}`)} aria-label={`${jobs.bench}: ${job.title || job.name}`}>
              {jobs.bench}
            </a>
          </li>
        ))}
      </ul>
      <NewJob />
    </main>
  );
}

/** A file name that is valid on any disk; the job keeps the name that was typed. */
function fileName(name: string): string {
  const plain = name.normalize("NFKD").replace(/\p{M}/gu, "").replaceAll("ß", "ss");
  const parts = plain.match(/[A-Za-z0-9_-]+/g) ?? [];
  // It begins with a letter or digit; a name without any becomes the date and time.
  const file = parts.join(" ").replace(/^[-_ ]+/, "").slice(0, 64).trim();
  return file || `job ${new Date().toISOString().slice(0, 16).replace(/[T:]/g, " ")}`;
}

function NewJob() {
  const id = useId();
  const [examples, setExamples] = useState<{ name: string; title: string }[]>([]);
  const [trouble, setTrouble] = useState("");
  useEffect(() => {
    ask<{ name: string; title: string }[]>("examples")
      .then(setExamples)
      .catch(() => undefined);
  }, []);
  const make = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const typed = (key: string) => (form.get(key) as string).trim();
    try {
      const name = typed("name");
      const made = await ask<JobAnswer>("jobs", { method: "POST", body: { name: fileName(name), like: typed("like") || null } });
      await ask(jobPath(made.name), { method: "PATCH", etag: made.etag, body: { edits: [{ path: "job.name", set: name }] } });
      location.href = withLanguage(`/job/${encodeURIComponent(made.name)}`);
    } catch (error) {
      setTrouble(error instanceof Refusal ? `${error.message} ${error.remedy}` : words.noServer);
    }
  };
  return (
    <form class="new-job" onSubmit={(event) => void make(event)} aria-labelledby={`${id}-new`}>
      <h2 id={`${id}-new`}>{jobs.fresh}</h2>
      <div class="field">
        <label for={`${id}-name`}>{jobs.name}</label>
        <input id={`${id}-name`} name="name" required autocomplete="off" aria-describedby={trouble ? `${id}-no` : undefined} />
      </div>
      <div class="field">
        <label for={`${id}-like`}>{jobs.like}</label>
        <select id={`${id}-like`} name="like">
          <option value="">{jobs.starter}</option>
          {examples.map((one) => (
            <option key={one.name} value={one.name}>
              {one.title}
            </option>
          ))}
        </select>
      </div>
      {trouble && (
        <p id={`${id}-no`} class="fault" role="alert">
          {trouble}
        </p>
      )}
      <button type="submit" class="main">
        {jobs.make}
      </button>
    </form>
  );
}
