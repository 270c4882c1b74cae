/** What the cell rewriting reads of a node of the compiler's syntax tree; the compiler's own type has many more fields. */
export interface Syntax {
  readonly kind: number;
  readonly pos: number;
  readonly end: number;
  readonly parent?: Syntax;
  readonly name?: Syntax;
  readonly propertyName?: Syntax;
  readonly statement?: Syntax;
  readonly expression?: Syntax;
  readonly awaitModifier?: Syntax;
  readonly asteriskToken?: Syntax;
  readonly moduleSpecifier?: Syntax;
  readonly modifiers?: readonly Syntax[];
  getStart(tree?: SyntaxTree): number;
}

/** A fault found while parsing. */
export interface SyntaxFault {
  readonly start: number;
  readonly length: number;
  readonly code: number;
}

/** A parsed text. */
export interface SyntaxTree extends Syntax {
  readonly text: string;
  readonly statements: readonly Syntax[];
  readonly parseDiagnostics: readonly SyntaxFault[];
}

/** The compiler's parser, as far as cells need it. */
export interface Parser {
  /** Parses TypeScript (or JavaScript); parents are set. */
  parse(text: string, language?: "ts" | "js"): SyntaxTree;
  /** Calls for each child; stops at the first answer that is true. */
  someChild(node: Syntax, see: (child: Syntax) => boolean | undefined): boolean;
  /** The compiler's number for a kind of node, by its name, such as `ForStatement`. */
  kind(name: string): number;
}

/** Looks at a node and everything below it. */
export function walk(parser: Parser, node: Syntax, see: (node: Syntax) => void): void {
  see(node);
  parser.someChild(node, (child) => {
    walk(parser, child, see);
    return false;
  });
}
