// The reader brings no types of its own.
declare module 'dxf' {
  export function parseString(text: string): {
    readonly header: Readonly<Record<string, unknown>>
    readonly entities: readonly {
      readonly type: string
      readonly layer: string
      readonly closed?: boolean
      readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[]
      readonly x?: number
      readonly y?: number
      readonly r?: number
      readonly start?: { readonly x: number; readonly y: number }
      readonly end?: { readonly x: number; readonly y: number }
    }[]
  }
}
