// The page: which view, by the address alone. Each view is loaded when it is asked for.

import { render, type VNode } from "preact";
import { ask } from "./api/client";
import type { About } from "./api/types";
import { showLight } from "./state/light";
import "./style/page.css";

showLight();
/** A network that swallows what is asked is as good as none. */
const PATIENCE_MS = 3000;
const place = document.getElementById("page")!;

async function view(): Promise<VNode> {
  const [, kind, named] = /^\/(job|bench)\/([^/]+)/.exec(location.pathname) ?? [];
  const name = decoded(named ?? "");
  if (kind === "job") {
    const { WorkPage } = await import("./work/WorkPage");
    return <WorkPage name={name} />;
  }
  if (kind === "bench") {
    const { BenchPage } = await import("./bench/BenchPage");
    return <BenchPage name={name} />;
  }
  const { JobsPage } = await import("./work/JobsPage");
  return <JobsPage />;
}

/** A name out of an address; as it stands where it is no text. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** Where the server keeps its door shut the code is asked for; without a network nothing is. */
async function door(): Promise<VNode | null> {
  const about = await ask<About>("about", { signal: AbortSignal.timeout(PATIENCE_MS) }).catch(() => null);
  if (about?.inside !== false) return null;
  const { EnterPage } = await import("./EnterPage");
  return <EnterPage />;
}

const shut = door();
void Promise.all([view(), navigator.onLine ? shut : null]).then(([shown, asked]) => render(asked ?? shown, place));
