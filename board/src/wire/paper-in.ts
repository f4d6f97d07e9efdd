import { ask } from "./ask.ts";
import type { Job } from "./job.ts";
import type { PaperName } from "./paper.ts";
import type { Trace, TracedPiece } from "./trace.ts";

export const MOST_BYTES = 20_000_000;
export const PHOTOS = "image/jpeg,image/png,image/webp";
export const LEARNERS = `${PHOTOS},.dxf,.svg,.json`;
/** What the table is called that a photo shows from above. */
export const PICTURE = "table.png";
export const FEEDBACK = "feedback.pdf";

/** Pieces read from a photo, as somebody would have traced them over the table seen from above. */
export interface PhotoRead {
  trace: Pick<Trace, "picture" | "measured" | "scale"> & { pieces: Omit<TracedPiece, "whole" | "marks">[] };
  doubts: string[];
}

/** What a learner did well, and each point to mend, the first ones at length. */
export interface Feedback {
  right: string[];
  points: { number: number; says: string; why: string; mend: string; most: boolean }[];
  doubts: string[];
  pages: number;
}

/** What a person knows of a learner's file. */
export interface Answers {
  scale: "quarter" | "full";
  allowance_mm: number;
}

/** The sheet that lies beside the pieces on a photo. There is none on A3: it comes on A4 then. */
export const referenceSheetPath = (paper: PaperName) => `api/reference-sheet.pdf?${new URLSearchParams({ paper })}`;

export const readPhoto = (trace: string, photo: Blob) => ask<Job<PhotoRead>>(`api/traces/${encodeURIComponent(trace)}/photo`, "POST", photo);

export function beginReview(design: string, wearer: string, unit: "cm" | "in", paper: string, file: File, answers: Answers): Promise<Job<Feedback>> {
  const told = { wearer, units: unit === "in" ? "inches" : "cm", paper, name: file.name, scale: answers.scale, allowance_mm: String(answers.allowance_mm) };
  return ask(`api/designs/${encodeURIComponent(design)}/review?${new URLSearchParams(told)}`, "POST", file);
}
