import { nearest } from '../reading/round.ts'
import { pound } from '../reading/show.ts'
import { massPerLength } from '../section/mass.ts'
import type { Section } from '../section/section.ts'
import type { CarriedSection, Rate } from '../shop.ts'
import { inch, type Mm } from '../units.ts'

/** How many of the rate's units a stick of this section and length is: feet, meters, pounds or kilograms by formula. */
export function unitsOfStick(per: Rate['per'], section: Section, length: Mm): number {
  const kilograms = (massPerLength(section) * length) / 1000
  switch (per) {
    case 'foot':
      return length / (12 * inch)
    case 'meter':
      return length / 1000
    case 'pound':
      return kilograms / pound
    case 'kilogram':
      return kilograms
  }
}

/** Price of one stick, in whole cents: nests count no parts of a cent. To the nearest, a half cent up. */
export const stickPrice = ({ per, cents }: Rate, section: Section, length: Mm): number =>
  nearest(cents * unitsOfStick(per, section, length))

/** Lengths that a section is bought in, each with its price: its own, else the section's by its rate. */
export const pricedStock = ({ section, stock, rate }: CarriedSection): CarriedSection['stock'] =>
  stock.map((one) =>
    one.price === undefined && rate ? { ...one, price: stickPrice(rate, section, one.length) } : one,
  )
