import assert from "node:assert/strict";
import { before, beforeEach, test } from "node:test";
import type { KeptGroup } from "../wire/group.ts";
import { words } from "../words.ts";

/** The workroom as another page has it: groups by reference, saved over and over. */
const kept = new Map<string, { document: KeptGroup; version: number }>();
let versions = 0;
let away = false;

function save(document: KeptGroup): { document: KeptGroup; version: number } {
  const saved = { document, version: (versions += 1) };
  kept.set(document.ref, saved);
  return saved;
}

const told = (status: number, body: unknown = {}) => new Response(status === 204 ? null : JSON.stringify(body), { status });

async function answer(path: string, { method = "GET", body }: RequestInit = {}): Promise<Response> {
  if (away) throw new TypeError("no answer");
  if (path === "api/vocabulary") return told(200, { measurements: [], levels: [], lines: [], steps: {}, garment: [], sizes: [] });
  if (path === "api/workroom") {
    const groups = [...kept.values()].map(({ document, version }) => ({ ref: document.ref, title: document.title, version }));
    return told(200, { wearers: [], designs: [], traces: [], groups, stand: "stand" });
  }
  const ref = path.replace("api/groups/", "");
  const there = kept.get(ref);
  if (method === "PUT") {
    const { document, based_on } = JSON.parse(String(body)) as { document: KeptGroup; based_on: number | null };
    return (there?.version ?? null) === based_on ? told(200, save(document)) : told(409, { message: "stale" });
  }
  if (method === "DELETE") kept.delete(ref);
  return there ? told(method === "DELETE" ? 204 : 200, there) : told(404);
}

let group: typeof import("./group.svelte.ts").group;

before(async () => {
  // A page that nobody looks at: what is shown is asked for here, so that plain values do.
  const plain = Object.assign((value: unknown) => value, { raw: (value: unknown) => value, by: (make: () => unknown) => make() });
  Object.assign(globalThis, { $state: plain, $derived: plain, $effect: () => undefined, fetch: answer, location: { hash: "" }, history: { state: null }, addEventListener: () => undefined });
  ({ group } = await import("./group.svelte.ts"));
});

const named = (ref: string, title: string): KeptGroup => ({ format: "panelwright-workroom-group/1", ref, title });

beforeEach(async () => {
  kept.clear();
  save(named("group-1", "Class"));
  save(named("group-2", "Festival"));
  await group.look();
  await group.open("group-2");
  assert.equal(group.asked.title, "Festival");
});

test("a change is saved on what is there", async () => {
  group.change({ money: "EUR" });
  await group.look();
  assert.deepEqual([kept.get("group-2")!.document.money, group.fault], ["EUR", ""]);
});

test("a change of what another page has changed gives way to it, and the next one is saved", async () => {
  save(named("group-2", "Theirs"));
  group.change({ money: "EUR" });
  await group.look();
  assert.deepEqual([group.asked.title, group.asked.money, group.fault], ["Theirs", "", words.group.elsewhere]);
  group.change({ money: "EUR" });
  await group.look();
  assert.deepEqual([kept.get("group-2")!.document.title, kept.get("group-2")!.document.money, group.fault], ["Theirs", "EUR", ""]);
});

test("a change of what another page has deleted says so, and the other groups can be used", async () => {
  kept.delete("group-2");
  group.change({ money: "EUR" });
  await group.look();
  assert.deepEqual([group.ref, group.asked.title, group.fault], ["group-1", "Class", words.group.gone]);
  group.change({ money: "kr" });
  await group.look();
  assert.deepEqual([...kept.keys(), kept.get("group-1")!.document.money], ["group-1", "kr"]);
});

test("the last group deleted elsewhere leaves a new one", async () => {
  kept.clear();
  group.change({ money: "EUR" });
  await group.look();
  assert.deepEqual([group.asked.title, group.version, group.fault], [words.group.usualTitle, null, words.group.gone]);
});

test("a new group stands beside one that another page has begun meanwhile", async () => {
  await group.begin();
  save(named("group-3", "Theirs"));
  await group.look();
  assert.equal(group.asked.title, words.group.usualTitle);
  group.change({ title: "Mine" });
  await group.look();
  assert.deepEqual([...kept.values()].map(({ document }) => document.title), ["Class", "Festival", "Theirs", "Mine"]);
  assert.equal(group.fault, "");
});

test("the group that is deleted is the one that was shown when that was asked for", async () => {
  void group.open("group-1");
  await group.remove();
  assert.deepEqual([...kept.keys(), group.ref, group.fault], ["group-1", "group-1", ""]);
  await group.remove();
  assert.deepEqual([kept.size, group.version, group.asked.title], [0, null, words.group.usualTitle]);
});

test("that nobody answered is no longer said once somebody has", async () => {
  away = true;
  await group.look();
  assert.equal(group.fault, words.unreachable);
  away = false;
  await group.look();
  assert.equal(group.fault, "");
});
