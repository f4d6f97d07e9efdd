import { ask } from "./ask.ts";
import { begin } from "./job.ts";
import type { PaperName } from "./paper.ts";
import type { Saved } from "./types.ts";

/** One garment of a group, or several alike. */
export interface GroupGarment {
  design: string;
  wearer: string;
  count: number;
  /** What its outer cloth is called in the group; empty: as the design calls it. */
  outer: string;
}

/** What is known of a cloth, as a design file says it. */
export interface GroupCloth {
  width_cm?: number;
  folded?: boolean;
  one_way?: boolean;
  shrinkage_percent?: number;
  sold_by_cm?: number;
  price_per_metre?: number;
}

export interface GroupAsked {
  title: string;
  garments: GroupGarment[];
  cloths: Record<string, GroupCloth>;
  notion_prices: Record<string, number>;
  money: string;
  spare: { cloth_percent: number; notions_percent: number };
  longest_lay_cm: number;
  /** Of search for each lay; 0: first lays. */
  seconds: number;
}

export const BLANK: GroupAsked = {
  title: "",
  garments: [],
  cloths: {},
  notion_prices: {},
  money: "",
  spare: { cloth_percent: 0, notions_percent: 0 },
  longest_lay_cm: 400,
  seconds: 0,
};

/** A group as the workroom keeps it; what a file may leave out is left out. */
export interface KeptGroup extends Partial<Omit<GroupAsked, "garments" | "spare">> {
  format: "panelwright-workroom-group/1";
  ref: string;
  garments?: (Pick<GroupGarment, "design" | "wearer"> & Partial<GroupGarment>)[];
  spare?: Partial<GroupAsked["spare"]>;
}

/** What a group needs, in words: rows are as their heads. */
export interface GroupFacts {
  cloth_heads: string[];
  cloths: { name: string; label: string; row: string[]; record: GroupCloth; lays: string[] }[];
  notion_heads: string[];
  notions: string[][];
  notion_names: string[];
  garment_heads: string[];
  garments: string[][];
  total: string;
  notes: string[];
}

export const LIST_FILE = "shopping-list.pdf";
export const LAYS_FILE = "group-lays.pdf";
export const TABLE_FILE = "shopping-list.csv";

const place = (ref: string) => `api/groups/${encodeURIComponent(ref)}`;

export const keptGroup = (ref: string) => ask<Saved<KeptGroup>>(place(ref));

/** `basedOn` null: there must be no group of this reference yet, or the server refuses with status 409. */
export const saveGroup = (ref: string, asked: GroupAsked, basedOn: number | null) => {
  const document: KeptGroup = { format: "panelwright-workroom-group/1", ref, ...asked };
  return ask<Saved<KeptGroup>>(place(ref), "PUT", { document, what: "a group", based_on: basedOn });
};

export const removeGroup = (ref: string) => ask<void>(place(ref), "DELETE");

export const beginGroup = (asked: GroupAsked, unit: "cm" | "in", paper: PaperName) =>
  begin<GroupFacts>("api/group", { ...asked, units: unit === "in" ? "inches" : "cm", paper });
