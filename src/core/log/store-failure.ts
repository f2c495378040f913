/** What can go wrong with keeping something. In every case nothing of the change was written. */

export type StoreFailure =
  /** No room left. */
  | 'full'
  /** Another tab changed the same thing in the meantime. */
  | 'conflict'
  /** Written by a later program: only to be looked at and saved to a file. */
  | 'read-only'
  /** It holds what the logbook's schema refuses: no backup could bring it back. */
  | 'unsound'
  /** The browser closed or lost the store. */
  | 'broken';
