// Asking the server. A refusal becomes a `Refusal` that carries what the server said.

import type { ErrorBody } from "./types";

/** This window, so that its own changes are told from those of another. */
export const windowId = crypto.randomUUID?.() ?? String(Math.random()).slice(2);

export class Refusal extends Error {
  constructor(
    readonly status: number,
    readonly remedy: string,
    readonly body: Partial<ErrorBody>,
    says: string,
  ) {
    super(says);
  }
}

/** Asks `/api/PATH`; throws a `Refusal`, or a `TypeError` where no server answers. */
export async function ask<T>(
  path: string,
  { method = "GET", body, etag, signal }: { method?: string; body?: unknown; etag?: string; signal?: AbortSignal } = {},
): Promise<T> {
  const headers: Record<string, string> = { "X-Window": windowId };
  if (body !== undefined) headers["Content-Type"] = "application/json";
  if (etag !== undefined) headers["If-Match"] = `"${etag}"`;
  const response = await fetch(`/api/${path}`, {
    method,
    headers,
    body: body === undefined ? undefined : JSON.stringify(body),
    signal,
    // What is no longer wanted is told even by a window that is being closed.
    keepalive: method === "DELETE",
  });
  const text = await response.text();
  if (response.ok) return (text ? JSON.parse(text) : null) as T;
  const said = parsed(text);
  const error = said.error ?? said.faults?.[0];
  throw new Refusal(response.status, error?.remedy ?? "", said, error?.says ?? response.statusText);
}

function parsed(text: string): Partial<ErrorBody> {
  try {
    return JSON.parse(text) as ErrorBody;
  } catch {
    return {};
  }
}

/** The path of a job, or of something of it. */
export function jobPath(name: string, what = ""): string {
  return `jobs/${encodeURIComponent(name)}${what && "/"}${what}`;
}
