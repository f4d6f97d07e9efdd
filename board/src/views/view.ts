import type { Component } from "svelte";

/** One way to look at the open design; it is shown between the step list and the findings. */
export interface View {
  id: string;
  title: string;
  component: Component;
}

/** A page of its own, at `#/ID`, or, where it needs to be told which design or block it shows, at `#/ID/REF`. */
export interface Page {
  id: string;
  title: string;
  component: Component;
  needsRef?: true;
}
