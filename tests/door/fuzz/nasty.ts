import type { Dice } from '../../prove/seed.ts'

// Ways to spoil a text: what a broken disk, a careless program or somebody with bad intentions would send.

const pieces: readonly string[] = [
  '__proto__',
  '"__proto__":{"polluted":true},',
  '"constructor":{"prototype":{"polluted":true}},',
  'NaN',
  '1e999',
  '-0',
  '9'.repeat(400),
  `${'1'.repeat(5000)}/${'7'.repeat(5000)}`,
  '['.repeat(3000),
  '{"a":'.repeat(3000),
  '"\\'.repeat(3000),
  '<script>polluted=1</script>',
  '<img src=x onerror=alert(1)>',
  '\u0000',
  '\ud800',
  '\u202e',
  '\uFEFF',
  'null',
  '[]',
  '{}',
  '""',
  '"',
  ',',
  '\n',
  '\t'.repeat(2000),
  ' '.repeat(5000),
  '=cmd|x',
  '-1',
  '0.1',
  '1e-300',
  '4294967296',
]

/** The text with one to four things done to it. */
export function spoiled(text: string, roll: Dice): string {
  let out = text
  for (let times = roll.whole(1, 4); times > 0; times--) {
    const at = roll.whole(0, out.length)
    const until = Math.min(out.length, at + roll.whole(0, roll() < 0.1 ? out.length : 30))
    const way = roll.whole(0, 4)
    if (way === 0) out = out.slice(0, at) + out.slice(until)
    else if (way === 1) out = out.slice(0, at) + roll.pick(pieces) + out.slice(until)
    else if (way === 2) out = out.slice(0, until) + out.slice(at)
    else if (way === 3)
      out = out.slice(0, at) + String.fromCharCode(roll.whole(0, 0x2fff)) + out.slice(at + 1)
    else out = out.slice(0, at) + roll.pick(pieces) + out.slice(at)
    // Doubling a part again and again would only be a test of patience.
    out = out.slice(0, 400_000)
  }
  return out
}

const values = (roll: Dice): unknown =>
  roll.pick<() => unknown>([
    () => null,
    () => roll.pick([-1, 0, 0.1, 2 ** 53, 1e21, 1e-12, -0, 7, 24, 1000, 999_999]),
    () =>
      roll.pick([
        '',
        'top',
        '9 5/8',
        '6\' 2 1/2"',
        '1'.repeat(100),
        '__proto__',
        '1e9',
        '1/0',
        'tablet:1',
        '½',
      ]),
    () => [],
    () => ({}),
    () => Array.from({ length: 300 }, () => ({ count: 3, length: 5, a: 45, b: -45 })),
    () => Object.fromEntries(Array.from({ length: 300 }, (_, at) => [`k${at}`, at])),
    () => true,
    () => ({
      kind: 'square-tube',
      width: roll.pick([0.001, 5, 999_999]),
      wall: roll.pick([0.0001, 2, 400_000]),
    }),
  ])()

/** The value with one to three of its fields replaced, doubled, taken out or added to. */
export function bent(value: unknown, roll: Dice): unknown {
  const copy = structuredClone(value)
  for (let times = roll.whole(1, 3); times > 0; times--) {
    let at = copy as Record<string, unknown>
    for (let depth = roll.whole(0, 8); depth > 0; depth--) {
      const inside = Object.values(at).filter((one) => typeof one === 'object' && one !== null)
      if (inside.length === 0) break
      at = roll.pick(inside) as Record<string, unknown>
    }
    const keys = Object.keys(at)
    if (keys.length === 0) continue
    const key = roll.pick(keys)
    const way = roll()
    if (Array.isArray(at) && way < 0.15) at.push(structuredClone(at[Number(key)]))
    else if (way < 0.3) delete at[key]
    else if (way < 0.35) at[roll.pick(['odd', 'toString', '0', 'valueOf'])] = values(roll)
    else at[key] = values(roll)
  }
  return copy
}
