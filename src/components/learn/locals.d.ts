declare namespace App {
  interface Locals {
    /** The explainer being rendered: its sources in the order of their letters. */
    learnSources?: readonly { readonly id: string; readonly letter: string }[];
  }
}
