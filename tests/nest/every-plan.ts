// Every plan there is, for a few pieces: the oracle of the nest. Written from the rules of the documents in plain mm,
// one swing plane, sharing nothing with src/.

export interface Piece {
  readonly mid: number
  /** Proper turnings allowed, as [leading, trailing] slopes. */
  readonly ways: readonly (readonly [number, number])[]
  /** All pieces of this name lie on one stick. */
  readonly same?: string
}

export interface Kind {
  readonly length: number
  readonly mill: readonly [boolean, boolean]
  readonly cost: number
  readonly count: number
  readonly rack: boolean
}

export interface Shop {
  readonly width: number
  readonly kerf: number
  readonly trim: number
  readonly grip: number
  readonly kinds: readonly Kind[]
}

export interface Least {
  readonly cost: number
  readonly sticks: number
}

/** Rounding of sums of a few lengths; a whole step is 1/1600 mm. */
const slack = 1e-6

const kerfOf = (kerf: number, slope: number) => kerf * Math.hypot(1, slope)

function rowFits(
  shop: Shop,
  kind: Kind,
  row: readonly (readonly [mid: number, lead: number, trail: number])[],
) {
  const { width, kerf, trim, grip } = shop
  const [first, last] = [row[0]!, row.at(-1)!]
  if (
    row.length === 1 &&
    kind.rack &&
    !kind.mill[0] &&
    !kind.mill[1] &&
    first[1] === 0 &&
    first[2] === 0 &&
    Math.abs(first[0] - kind.length) < slack
  )
    return true
  const clean = (mill: boolean, slope: number) => (mill && trim > 0 ? Math.max(trim, kerfOf(kerf, slope)) : 0)
  let need = (Math.abs(first[1]) * width) / 2 + clean(kind.mill[0], first[1])
  need +=
    (Math.abs(last[2]) * width) / 2 +
    Math.max(clean(kind.mill[1], last[2]), grip > 0 ? grip + kerfOf(kerf, last[2]) : 0)
  for (let at = 0; at < row.length; at += 1) {
    need += row[at]![0]
    const next = row[at + 1]
    if (!next) continue
    const [a, b] = [row[at]![2], next[1]]
    need +=
      Math.abs(a - b) < 1e-9
        ? kerfOf(kerf, a)
        : (Math.abs(a - b) * width) / 2 + kerfOf(kerf, a) + kerfOf(kerf, b)
  }
  return need <= kind.length + slack
}

function anyRowFits(shop: Shop, kind: Kind, pieces: readonly Piece[]): boolean {
  // Square ends: every order needs the same.
  if (pieces.every(({ ways }) => ways.every(([lead, trail]) => lead === 0 && trail === 0)))
    return rowFits(
      shop,
      kind,
      pieces.map(({ mid }) => [mid, 0, 0] as const),
    )
  const row: [number, number, number][] = []
  const used = pieces.map(() => false)
  const go = (): boolean => {
    if (row.length === pieces.length) return rowFits(shop, kind, row)
    const tried = new Set<Piece>()
    for (const [at, piece] of pieces.entries()) {
      // Copies of one piece are the same choice.
      if (used[at] || tried.has(piece)) continue
      tried.add(piece)
      used[at] = true
      for (const [lead, trail] of piece.ways) {
        row.push([piece.mid, lead, trail])
        const fits = go()
        row.pop()
        if (fits) {
          used[at] = false
          return true
        }
      }
      used[at] = false
    }
    return false
  }
  return go()
}

/** Least cost, then fewest sticks, over all plans that cut every piece; undefined when there is none. */
export function leastOfAll(shop: Shop, pieces: readonly Piece[]): Least | undefined {
  const all = 2 ** pieces.length - 1
  const groups = [...new Set(pieces.flatMap(({ same }) => same ?? []))].map((name) =>
    pieces.reduce((set, { same }, at) => (same === name ? set | (2 ** at) : set), 0),
  )
  const fits = shop.kinds.map(() => new Map<number, boolean>())
  const fitsOn = (kind: number, set: number): boolean => {
    const known = fits[kind]!.get(set)
    if (known !== undefined) return known
    const chosen = pieces.filter((_, at) => set & (2 ** at))
    const answer = anyRowFits(shop, shop.kinds[kind]!, chosen)
    fits[kind]!.set(set, answer)
    return answer
  }
  const known = new Map<string, Least | undefined>()
  const rest = (left: number, counts: readonly number[]): Least | undefined => {
    if (left === 0) return { cost: 0, sticks: 0 }
    const name = `${left}|${counts.join()}`
    if (known.has(name)) return known.get(name)
    let best: Least | undefined
    const lowest = left & -left
    for (let set = left; set > 0; set = (set - 1) & left) {
      if (!(set & lowest)) continue
      if (groups.some((group) => (set & group) !== 0 && (set & group) !== group)) continue
      for (const [kind, { cost }] of shop.kinds.entries()) {
        if (counts[kind]! < 1 || !fitsOn(kind, set)) continue
        const more = rest(left & ~set, counts.with(kind, counts[kind]! - 1))
        if (!more) continue
        const sum = { cost: more.cost + cost, sticks: more.sticks + 1 }
        if (
          !best ||
          sum.cost < best.cost - slack ||
          (sum.cost < best.cost + slack && sum.sticks < best.sticks)
        )
          best = sum
      }
    }
    known.set(name, best)
    return best
  }
  return rest(
    all,
    shop.kinds.map(({ count }) => Math.min(count, pieces.length)),
  )
}

/** What `leastOfAll` needs to know of a nest problem in one swing plane. */
export function asShop(problem: {
  readonly section: { readonly width: number }
  readonly kerf: number
  readonly trim: number
  readonly grip: number
  readonly stock: readonly {
    readonly length: number
    readonly price?: number
    readonly count?: number
    readonly rack?: string
    readonly ends: readonly unknown[]
  }[]
}): Shop {
  const priced = problem.stock.some(({ price, rack }) => price !== undefined && rack === undefined)
  return {
    width: problem.section.width,
    kerf: problem.kerf,
    trim: problem.trim,
    grip: problem.grip,
    kinds: problem.stock.map(({ length, price, count, rack, ends }) => ({
      length,
      mill: [ends[0] === 'mill', ends[1] === 'mill'] as const,
      cost: price ?? (rack !== undefined || priced ? 0 : length),
      count: count ?? (rack === undefined ? Number.POSITIVE_INFINITY : 1),
      rack: rack !== undefined,
    })),
  }
}

/** The pieces of a nest problem one by one, with their proper turnings in one swing plane. */
export function asPieces(
  parts: readonly {
    readonly mid: number
    readonly count: number
    readonly ends: readonly [{ readonly p: number }, { readonly p: number }]
    readonly turns: readonly string[]
    readonly same?: string
  }[],
): Piece[] {
  return parts.flatMap(({ mid, count, ends, turns, same }) => {
    const [s, u] = [ends[0].p, ends[1].p]
    // over (−s, −u), end (u, s), flip (−u, −s): the turnings of a trapezoid or parallelogram in its plane.
    const all: Readonly<Record<string, readonly [number, number]>> = {
      none: [s, u],
      over: [-s, -u],
      end: [u, s],
      flip: [-u, -s],
    }
    const ways = new Map(turns.map((turn) => [`${all[turn]!.map((slope) => slope || 0)}`, all[turn]!]))
    const piece: Piece = {
      mid,
      ways: [...ways.values()].map(([a, b]) => [a || 0, b || 0] as const),
      ...(same !== undefined && { same }),
    }
    return Array.from({ length: count }, () => piece)
  })
}
