// A server for unit tests: one job whose file is a number of edits, behind a fake `fetch` and `EventSource`.

import type { BenchStep, Edit, Entry, Fault, JobAnswer, Model, Plan, Written } from "../api/types";
import { aModel, aPlan } from "./samples";

export interface Request {
  method: string;
  path: string;
  body: unknown;
  etag: string | null;
}

interface Reply {
  status: number;
  body: unknown;
}

/** An event stream that a test sends on. */
export class FakeEvents extends EventTarget {
  static readonly CLOSED = 2;
  static all: FakeEvents[] = [];
  readyState = 1;
  onopen: (() => void) | null = null;
  onerror: (() => void) | null = null;

  constructor(readonly url: string) {
    super();
    FakeEvents.all.push(this);
  }

  /** The open stream whose address holds `part`. */
  static open(part: string): FakeEvents {
    const found = FakeEvents.all.findLast(({ url, readyState }) => url.includes(part) && readyState !== FakeEvents.CLOSED);
    if (!found) throw new Error(`no open stream of ${part}`);
    return found;
  }

  close(): void {
    this.readyState = FakeEvents.CLOSED;
  }

  send(kind: string, data: unknown = null): void {
    this.dispatchEvent(new MessageEvent(kind, { data: JSON.stringify(data) }));
  }
}

export class FakeServer {
  readonly requests: Request[] = [];
  version = 1;
  written: Record<string, Written> = {};
  faults: Fault[] = [];
  plan: Plan = aPlan();
  model: Model = aModel();
  steps: BenchStep[] = [];
  entries: Entry[] = [];
  isDown = false;
  /** Answers to be given in place of the usual ones, by method and path. */
  readonly replies = new Map<string, Reply>();
  private readonly gates = new Map<string, Promise<void>>();
  private works = 0;

  readonly fetch = async (url: string, init: RequestInit = {}): Promise<Response> => {
    const request: Request = {
      method: init.method ?? "GET",
      path: url.replace(/^\/api\//, ""),
      body: init.body ? (JSON.parse(init.body as string) as unknown) : null,
      etag: new Headers(init.headers).get("If-Match")?.replaceAll('"', "") ?? null,
    };
    this.requests.push(request);
    if (this.isDown) throw new TypeError("Failed to fetch");
    // What is asked later meets a later state, what is held back comes late with the state that it met.
    const { status, body } = this.reply(request);
    await this.gates.get(gateOf(request));
    init.signal?.throwIfAborted();
    return new Response(JSON.stringify(body), { status });
  };

  get etag(): string {
    return `v${this.version}`;
  }

  /** Holds answers back; the function that it gives lets them through. */
  hold(method: string, path: string): () => void {
    const gate = `${method} ${path}`;
    let open = () => {};
    this.gates.set(gate, new Promise((resolve) => (open = resolve)));
    return () => {
      this.gates.delete(gate);
      open();
    };
  }

  asked(method: string, path: string): Request[] {
    return this.requests.filter((one) => gateOf(one) === `${method} ${path}`);
  }

  job(): JobAnswer {
    const { etag, written, faults } = this;
    return { name: "box", title: "Box", etag, text: `text ${etag}`, written: { ...written }, job: { units: "metric" } as JobAnswer["job"], faults, can_undo: false, can_redo: false };
  }

  /** Another window, or an editor, changes the file. */
  changeElsewhere(edits: Record<string, Written>): void {
    Object.assign(this.written, edits);
    this.version += 1;
  }

  private reply(request: Request): Reply {
    const { method, path, etag, body } = request;
    const set = this.replies.get(gateOf(request));
    if (set) return set;
    const what = path.replace(/^jobs\/box\/?/, "").replace(/\?.*/, "");
    if (path === "about") return ok({ choices: {}, inside: true });
    if (method !== "GET" && etag !== null) {
      if (etag !== this.etag) return { status: 412, body: { error: { says: "The file was changed." }, text: `text ${this.etag}`, etag: this.etag } };
      if (method === "PATCH") for (const edit of (body as { edits: Edit[] }).edits) apply(this.written, edit);
      this.version += 1;
      return ok(this.job());
    }
    if (what === "work") return ok({ work_id: (this.works += 1) });
    if (what === "plan") return ok({ ...this.plan, etag: this.etag, draft: path.includes("quick") || this.plan.draft });
    if (what === "model") return ok({ ...this.model, etag: this.etag });
    if (what === "bench") return ok({ name: "box", title: "Box", etag: this.etag, stopped: false, draft: false, steps: this.steps });
    if (what === "build/entries") {
      this.entries.push(...(body as Entry[]).filter((one) => !this.entries.some(({ client_id }) => client_id === one.client_id)));
      return ok({ acknowledged: (body as Entry[]).map(({ client_id }) => client_id) });
    }
    if (what === "build") return ok({ entries: [...this.entries] });
    if (/^work\/\d+\/result$/.test(path)) return ok({ ...this.plan, etag: this.etag, draft: false });
    return ok(what === "" ? this.job() : null);
  }
}

function gateOf({ method, path }: Request): string {
  return `${method} ${path.replace(/\?.*/, "")}`;
}

function ok(body: unknown): Reply {
  return { status: 200, body };
}

/** Edits of a plain key alone: what the real server makes of the others is its own. */
function apply(written: Record<string, Written>, edit: Edit): void {
  if ("set" in edit) written[edit.path] = edit.set as Written;
  else delete written[edit.path];
}
