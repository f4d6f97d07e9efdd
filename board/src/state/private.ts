import type { Step } from "../wire/types.ts";
import { settings } from "./settings.svelte.ts";

/** Whether an audience looks on: then notes, words of a maker's own and lengths of edges stay the maker's. */
export const isPrivate = (): boolean => settings.presenter;

/** What the maker has noted on a step, as far as it may be read now. */
export const noteOf = (step: Step | undefined): string => (typeof step?.note === "string" && !isPrivate() ? step.note : "");
