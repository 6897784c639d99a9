// Requests to the server. An error response becomes a `Refusal` that carries the server's message.

import { withLanguage } from "../words";
import type { ErrorBody } from "./types";

/** Identifies this window, so that its own changes can be told from those of another. */
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

/** Requests `/api/PATH`; throws a `Refusal`, or a `TypeError` where no server answers. */
export async function ask<T>(
  path: string,
  { method = "GET", body, etag, signal }: { method?: string; body?: unknown; etag?: string; signal?: AbortSignal } = {},
): Promise<T> {
  const headers: Record<string, string> = { "X-Window": windowId };
  if (body !== undefined) headers["Content-Type"] = "application/json";
  if (etag !== undefined) headers["If-Match"] = `"${etag}"`;
  const response = await fetch(withLanguage(`/api/${path}`), {
    method,
    headers,
    body: body === undefined ? undefined : JSON.stringify(body),
    signal,
    // A window that is being closed still cancels its work.
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
    return (JSON.parse(text) as Partial<ErrorBody> | null) ?? {};
  } catch {
    return {};
  }
}

/** The path of a job, or of a resource of it. */
export function jobPath(name: string, what = ""): string {
  return `jobs/${encodeURIComponent(name)}${what && "/"}${what}`;
}
