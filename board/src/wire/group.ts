import { begin } from "./job.ts";
import type { PaperName } from "./paper.ts";

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

export const beginGroup = (asked: GroupAsked, unit: "cm" | "in", paper: PaperName) =>
  begin<GroupFacts>("api/group", { ...asked, units: unit === "in" ? "inches" : "cm", paper });
