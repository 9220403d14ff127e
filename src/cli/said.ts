/** What a command says: on a failure nothing stands in `out`, and `err` is one line. */
export interface Said {
  readonly code: 0 | 1
  readonly out: string
  readonly err: string
}
