/**
 * Every control in every state, made of the components the screens are made of. Part of the test build only: its pictures stand in
 * docs/controls.md, and a test holds the page against them. `#group` shows one group, as a picture of it has it.
 */

import { type ComponentChildren, render } from "preact";
import { LocationProvider } from "preact-iso";
import { startLanguage } from "../src/languages/chosen";
import { startTheme } from "../src/look/theme";
import "../src/look/fonts.css";
import "../src/look/tokens.css";
import "../src/look/base.css";
import "../src/controls/buttons.css";
import "../src/controls/drawer.css";
import "../src/controls/tick-line.css";
import "../src/screens/shell/page.css";
import "./controls.css";
import { GROUPS } from "./control-groups";

function Group({ name, title, children }: { name: string; title: string; children: ComponentChildren }) {
  return (
    <section id={name} class="control-group">
      <h2>{title}</h2>
      {children}
    </section>
  );
}

function All({ only }: { only: string }) {
  const shown = GROUPS.filter((one) => (only === "" ? !one.over : one.name === only));
  const groups = shown.map(({ name, title, Shown }) => (
    <Group key={name} name={name} title={title}>
      <Shown />
    </Group>
  ));
  // What stands in a screen's place brings its own landmark and title.
  if (only === "failed") return <div>{groups}</div>;
  return (
    <LocationProvider>
      <main>
        <h1>Controls</h1>
        {groups}
      </main>
    </LocationProvider>
  );
}

const root = document.getElementById("app");
if (root === null) throw new Error("the page has no #app");
const draw = () => {
  render(<All only={location.hash.slice(1)} />, root);
};
startTheme();
addEventListener("hashchange", draw);
const words = startLanguage();
if (words === null) draw();
else void words.then(draw);
