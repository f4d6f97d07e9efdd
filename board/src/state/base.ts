import type { Design } from "../wire/types.ts";
import { board } from "./board.svelte.ts";
import { ink } from "./ink.svelte.ts";

/**
 * The design that a change starts from. A line drawn by hand is kept or rubbed out by itself: until then other changes
 * start from what is saved.
 */
export const base = (): Design | undefined => (ink.doing === "shown" ? (board.before ?? board.pattern) : board.pattern)?.design;
