// The entry point: the address decides which view is loaded.

import { render, type VNode } from "preact";
import { ask } from "./api/client";
import type { About } from "./api/types";
import { showTheme } from "./state/theme";
import { language } from "./words";
import "./style/page.css";

showTheme();
document.documentElement.lang = language;
/** A network that does not answer is treated as none. */
const TIMEOUT_MS = 3000;
const root = document.getElementById("page")!;

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

/** A decoded part of the address; unchanged where it is malformed. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** The page that asks for the access code, where the server needs one. */
async function codePage(): Promise<VNode | null> {
  const about = await ask<About>("about", { signal: AbortSignal.timeout(TIMEOUT_MS) }).catch(() => null);
  if (about?.inside !== false) return null;
  const { EnterPage } = await import("./EnterPage");
  return <EnterPage />;
}

const entering = codePage();
void Promise.all([view(), navigator.onLine ? entering : null]).then(([page, enterPage]) => render(enterPage ?? page, root));
