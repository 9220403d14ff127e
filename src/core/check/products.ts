import { type Nest, type NestPiece, type NestStick, piecesIn } from '../nest.ts'
import type { Product, Run } from '../plan-shapes.ts'
import { sameLength } from '../tolerance.ts'
import { fromSteps, type Mm } from '../units.ts'
import { leftIn } from './left.ts'
import type { Made, Replayed } from './replay.ts'
import { edges } from './solid.ts'
import { mm } from './words.ts'

/**
 * The list of products against what the programs made: each once, from where it says, and in the end every piece of
 * the nest, from the stick and the blank that the nest says, and nothing else. `reading` is half of what the shop reads.
 */
export function productFaults(run: Run, nest: Nest, replayed: Replayed, reading: Mm): string[] {
  const { made, loaded } = replayed
  const faults: string[] = []
  const left = leftIn(run)
  const products = new Map<string, Product>()
  for (const product of run.products) {
    if (products.has(product.id)) faults.push(`product ${product.id} stands twice in the list`)
    products.set(product.id, product)
    const real = made.get(product.id)
    if (!real) faults.push(`product ${product.id} is listed, but no program makes it`)
    else faults.push(...recordFaults(product, real, made, left))
  }
  for (const { id } of made.values()) {
    const product = products.get(id)
    if (!product) faults.push(`${id} is made, but stands in no list of products`)
    else if (loaded.has(id) && ['piece', 'drop', 'scrap'].includes(product.kind))
      faults.push(`${id} is a ${product.kind}, and yet it is cut further`)
    else if (
      !loaded.has(id) &&
      ['blank', 'half', 'rest'].includes(product.kind) &&
      !product.makes?.some((piece) => left.has(piece))
    )
      faults.push(`${id} is a ${product.kind} that nothing is made of`)
  }
  const wanted = new Set<string>()
  for (const { sticks } of nest.sections)
    for (const stick of sticks)
      for (const piece of stick.pieces.flatMap(halves)) {
        if (wanted.has(piece.piece))
          faults.push(`piece ${piece.piece} stands for two jobs; a run needs one name each`)
        wanted.add(piece.piece)
        if (left.has(piece.piece)) continue
        const real = made.get(piece.piece)
        if (!real) faults.push(`piece ${piece.piece} of the nest is never made`)
        else faults.push(...pieceFaults(piece, stick.id, real, products.get(piece.piece), made, reading))
      }
  for (const { id, kind } of products.values())
    if (kind === 'piece' && !wanted.has(id)) faults.push(`piece ${id} is made, but the nest does not want it`)
  for (const { sticks } of nest.sections)
    for (const stick of sticks) faults.push(...dropFaults(stick, run, replayed, reading))
  return faults
}

/** An entry of a stick, once for each finished piece that comes out of it. */
const halves = (entry: NestPiece): NestPiece[] => piecesIn(entry).map((piece) => ({ ...entry, ...piece }))

function recordFaults(
  product: Product,
  real: Made,
  made: ReadonlyMap<string, Made>,
  left: ReadonlySet<string>,
): string[] {
  const faults: string[] = []
  if (product.from !== real.from)
    faults.push(`product ${product.id} is said to come from ${product.from}; it comes from ${real.from}`)
  if (product.makes)
    for (const piece of product.makes)
      if (piece !== product.id && !left.has(piece) && !ancestors(piece, made).includes(product.id))
        faults.push(`product ${product.id} is said to make ${piece}, which does not come out of it`)
  return faults
}

/** What a product was cut from, up to the stick. */
function ancestors(id: string, made: ReadonlyMap<string, Made>): string[] {
  const line: string[] = []
  for (let at = made.get(id)?.from; at !== undefined; at = made.get(at)?.from) line.push(at)
  return line
}

function pieceFaults(
  piece: NestPiece,
  stick: string,
  real: Made,
  product: Product | undefined,
  made: ReadonlyMap<string, Made>,
  reading: Mm,
): string[] {
  const faults: string[] = []
  const name = `piece ${piece.piece}`
  if (real.stick !== stick) faults.push(`${name} is cut from stick ${real.stick}; the nest says ${stick}`)
  if (product) {
    if (product.kind !== 'piece') faults.push(`${name} is listed as a ${product.kind}`)
    for (const field of ['mark', 'key', 'copy', 'job'] as const)
      if (product[field] !== undefined && product[field] !== piece[field])
        faults.push(`${name} is listed with ${field} ${product[field]}; the nest says ${piece[field]}`)
  }
  if (piece.blank !== undefined && !ancestors(piece.piece, made).includes(piece.blank)) {
    const from = ancestors(piece.piece, made).at(-2) ?? stick
    return [...faults, `${name} is cut from ${from}; the nest says from blank ${piece.blank}`]
  }
  // In square first the nest's ends are those of the blank.
  const offStick = piece.blank ?? piece.piece
  const planned = piece.ends[0].x - piece.ends[1].x
  const { lead, trail } = made.get(offStick)!.solid
  const length = lead.x - trail.x
  // The exact length may lie `reading` off the printed one, which the nest counts in whole steps up.
  if (!(Math.abs(length - planned) <= lengthsIn(piece) * reading + fromSteps(1) + sameLength))
    faults.push(`${offStick} leaves the stick ${mm(length)} long at the middle; the nest says ${mm(planned)}`)
  return faults
}

/** How many lengths were rounded for an entry: a paired blank is that of two pieces, rounded once more. */
const lengthsIn = ({ makes }: NestPiece): number => (makes ? 3 : 1)

/** What the nest calls the drop is what lies there in the end, but for the rounding of the stops on the way. */
function dropFaults(
  { id: stick, drop: stated, pieces }: NestStick,
  run: Run,
  { made, cuts }: Replayed,
  reading: Mm,
): string[] {
  const rounded = pieces.reduce((sum, piece) => sum + lengthsIn(piece) - 1, 0)
  const cutCount = cuts.filter(({ keep }) => made.get(keep)?.from === stick).length + rounded
  return run.products
    .filter(({ id, kind }) => kind === 'drop' && made.get(id)?.from === stick)
    .flatMap(({ id, length }) => {
      const short = Math.min(...edges(made.get(id)!.solid))
      const slack = (cutCount + 1) * (reading + fromSteps(1)) + sameLength
      return [stated, ...(length === undefined ? [] : [length])]
        .filter((said) => !(Math.abs(said - short) <= slack))
        .map((said) => `drop ${id} is said to be ${mm(said)} long; ${mm(short)} are left`)
    })
}
