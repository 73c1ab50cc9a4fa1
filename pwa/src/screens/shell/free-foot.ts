/** The foot of a sheet stays in sight, unless it takes more of the height than it leaves to work in: then it scrolls with the rest. */

const MOST = 0.4;

function look(): void {
  for (const foot of document.querySelectorAll<HTMLElement>(".page-foot, .check-foot")) {
    foot.classList.toggle("foot-free", foot.offsetHeight > MOST * innerHeight);
  }
}

const watching = new ResizeObserver(look);
addEventListener("resize", look);

/** As the `ref` of a foot. One that is gone is watched no more, for nothing of it is left. */
export function freeFoot(foot: HTMLElement | null): void {
  if (foot !== null) watching.observe(foot);
}
