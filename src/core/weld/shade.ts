import { inch, type Mm } from '../units.ts'

/** Current that a thickness asks for: 1 A to the thousandth of an inch (rule of thumb, reference.md 5.5). */
export const ampsFor = (thickness: Mm): number => (thickness / inch) * 1000

/** Least shade for wire welding at a current: 29 CFR 1910.133(a)(5). */
export const leastShade = (amps: number): 7 | 10 => (amps < 60 ? 7 : 10)
