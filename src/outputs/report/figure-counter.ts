/** Figures with their captions, numbered through the whole report. */
import type { Figure } from "../figures/index.ts";
import { type Html, html, trusted } from "./html.ts";

export class FigureCounter {
  private count = 0;

  print(figure: Figure): Html {
    this.count += 1;
    return html`<figure id="${figure.id}-box">${trusted(figure.svg)}
<figcaption><strong>Figure ${this.count}. ${figure.title}.</strong> ${figure.caption}</figcaption></figure>
`;
  }
}
