// The page: which view, by the address alone. Each view is loaded when it is asked for.

import { render, type VNode } from "preact";
import "./style/page.css";

async function view(): Promise<VNode> {
  const [, kind, name] = /^\/(job|bench)\/([^/]+)/.exec(location.pathname) ?? [];
  if (kind === "job") {
    const { WorkPage } = await import("./work/WorkPage");
    return <WorkPage name={decodeURIComponent(name!)} />;
  }
  if (kind === "bench") {
    const { BenchPage } = await import("./bench/BenchPage");
    return <BenchPage name={decodeURIComponent(name!)} />;
  }
  const { JobsPage } = await import("./work/JobsPage");
  return <JobsPage />;
}

void view().then((shown) => render(shown, document.getElementById("page")!));
