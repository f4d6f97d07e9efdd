import { ask } from "./ask.ts";

/** Long work as the server tells of it; `facts` are what it found. */
export interface Job<Facts> {
  id: string;
  state: "waiting" | "working" | "ready" | "refused" | "stopped";
  done: number;
  total: number;
  what: string;
  files?: string[];
  facts?: Facts;
  message?: string;
}

const place = (id: string) => `api/jobs/${encodeURIComponent(id)}`;

export const begin = <Facts>(path: string, body: unknown) => ask<Job<Facts>>(path, "POST", body);
export const look = <Facts>(id: string) => ask<Job<Facts>>(place(id));
export const stop = (id: string) => ask<void>(place(id), "DELETE");
export const filePath = (id: string, name: string) => `${place(id)}/files/${encodeURIComponent(name)}`;
