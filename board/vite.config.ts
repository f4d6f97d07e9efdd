import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

// Beside its final place, so that the page is there whole or not at all: hatch_build.py moves it.
const out = process.env.BOARD_OUT ?? "../src/panelwright/web/page";

export default defineConfig({
  base: "./",
  plugins: [svelte()],
  build: {
    outDir: out,
    emptyOutDir: true,
    target: "es2022",
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 900,
  },
  server: { proxy: { "/api": { target: "http://127.0.0.1:8765", ws: true } } },
});
