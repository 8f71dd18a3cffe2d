/** What a figure needs and what it is. */

/** The few members of a document that drawing needs; a browser's and a server-side one both have them. */
export interface FigureDocument {
  createElement(name: string): unknown;
  createElementNS(namespace: string, name: string): unknown;
}

export interface FigureDom {
  readonly document: FigureDocument;
}

export interface Figure {
  /** Unique in its page; prefix of every id inside the drawing. */
  readonly id: string;
  readonly title: string;
  /** What to see, for the caption. */
  readonly caption: string;
  /** For readers who do not see the drawing. */
  readonly description: string;
  /** One `<svg>` element, self-contained. */
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}
