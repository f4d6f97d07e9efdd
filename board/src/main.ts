import { mount } from "svelte";
import "./page.css";
import App from "./App.svelte";

const place = document.getElementById("board");
if (place) mount(App, { target: place });
