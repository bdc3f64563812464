/** Room around a bar for what is drawn over its edge, px. */
const EDGE = 4;

/** Bars so near to the hours at the top have their time below them, px. */
const TOP = 84;

/** One bar as it is carried. */
interface Carried {
  readonly id: string;
  readonly layer: HTMLElement;
  readonly label: HTMLElement | undefined;
}

/**
 * The bars of one task on a layer of their own, over the score: while a finger moves only they move, and nothing below
 * is drawn again. The bars themselves stay where they stand, pale.
 */
export class Carry {
  #drawn: object | undefined;
  #task: string | undefined;
  #bars: Carried[] = [];

  /** Lifts the bars of a task; once, as long as the score is the same. */
  lift(over: HTMLElement, drawn: object, task: string): void {
    if (this.#task === task && this.#drawn === drawn) return;
    this.drop();
    const sheet = over.parentElement?.querySelector("svg");
    if (!sheet) return;
    const { x, y } = sheet.viewBox.baseVal;
    this.#task = task;
    this.#drawn = drawn;
    for (const bar of sheet.querySelectorAll<SVGGElement>(`[data-task="${CSS.escape(task)}"]`)) {
      const box = bar.getBBox();
      const [left, top] = [box.x - EDGE, box.y - EDGE];
      const [width, height] = [box.width + 2 * EDGE, box.height + 2 * EDGE];
      const picture = document.createElementNS("http://www.w3.org/2000/svg", "svg");
      for (const [name, value] of Object.entries({
        width,
        height,
        viewBox: [left, top, width, height].join(" "),
      }))
        picture.setAttribute(name, String(value));
      const font = sheet.getAttribute("font-family");
      if (font) picture.setAttribute("font-family", font);
      const copy = bar.cloneNode(true) as SVGGElement;
      for (const name of ["id", "role", "data-task", "aria-selected"]) copy.removeAttribute(name);
      picture.append(copy);
      const layer = document.createElement("div");
      layer.className = "carried";
      layer.dataset.carries = task;
      if (top - y < TOP) layer.dataset.high = "";
      // Time runs one way whatever the script does.
      layer.style.left = `${left - x}px`;
      layer.style.top = `${top - y}px`;
      layer.append(picture);
      const label = this.#bars.length === 0 ? document.createElement("span") : undefined;
      if (label) layer.append(label);
      bar.dataset.lifted = "";
      over.append(layer);
      this.#bars.push({ id: bar.id, layer, label });
    }
  }

  /** Puts the bars so far from where they stand, px; `across` only of the bar by that id, if one is given. */
  place(
    x: number,
    y: number,
    saying: string,
    across?: { readonly id: string; readonly x: number; readonly y: number },
  ) {
    for (const { id, layer, label } of this.#bars) {
      const own = across?.id === id;
      layer.style.transform = `translate3d(${x + (own ? across.x : 0)}px, ${y + (own ? across.y : 0)}px, 0)`;
      if (label && label.textContent !== saying) label.textContent = saying;
    }
  }

  drop(): void {
    for (const { layer } of this.#bars) {
      for (const bar of layer.parentElement?.parentElement?.querySelectorAll("[data-lifted]") ?? [])
        bar.removeAttribute("data-lifted");
      layer.remove();
    }
    this.#bars = [];
    this.#task = undefined;
    this.#drawn = undefined;
  }
}
