import { type FlatClass, flatClasses, type LinearClass, linearClasses } from '../../core/fitup/general.ts'
import { usualClear } from '../../core/fitup/table.ts'
import type { Shop, Table } from '../../core/shop.ts'
import { Choice, Flag } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { unitsOf } from '../words.ts'
import type { ShopPart } from './shop.tsx'

const none = 'none'

/** What frames are held to, and the table that they are put together on. */
export function Bench({ shop, change }: ShopPart) {
  const { general = {}, table } = shop
  const hold = (linear: LinearClass | undefined, flat: FlatClass | undefined) =>
    change({ general: { ...(linear ? { linear } : {}), ...(flat ? { flat } : {}) } })
  const start = usualTable(shop)
  const set = (some: Partial<Table>) => change({ table: { ...(table ?? start), ...some } })
  return (
    <section className="shop-part" aria-labelledby="bench-head">
      <h2 id="bench-head">Fit-up</h2>
      <div className="shop-fields">
        <Choice
          label="Lengths and angles are held to (ISO 13920)"
          options={[
            { value: none, label: 'no class' },
            ...linearClasses.map((value) => ({ value, label: value })),
          ]}
          value={general.linear ?? none}
          hint="A is the finest. With no class a length may be off by the tolerance of a first piece."
          onChange={(value) => hold(value === none ? undefined : (value as LinearClass), general.flat)}
        />
        <Choice
          label="Flat and straight are held to (ISO 13920)"
          options={[
            { value: none, label: 'no class' },
            ...flatClasses.map((value) => ({ value, label: value })),
          ]}
          value={general.flat ?? none}
          hint="E is the finest. Figures of G and H are from memory: compare them with the standard."
          onChange={(value) => hold(general.linear, value === none ? undefined : (value as FlatClass))}
        />
        <Flag
          label="Lay frames out on our own table"
          value={table !== undefined}
          onChange={(given) => change({ table: given ? start : undefined })}
        />
        {table && (
          <>
            <MmField
              label="Table, along its front"
              value={table.length}
              reading={shop.reading}
              possible={{ over: 0 }}
              onChange={(mm) => mm !== undefined && set({ length: mm })}
            />
            <MmField
              label="Table, front to back"
              value={table.width}
              reading={shop.reading}
              possible={{ over: 0 }}
              onChange={(mm) => mm !== undefined && set({ width: mm })}
            />
            <MmField
              label="Frames lie from its edges by"
              value={table.clear}
              reading={shop.reading}
              onChange={(mm) => mm !== undefined && set({ clear: mm })}
            />
            <MmField
              label="Width of its slots"
              optional
              hint="Leave out for a plain top."
              value={table.slot}
              reading={shop.reading}
              onChange={(mm) => {
                const { slot: _, ...plain } = table
                change({ table: mm === undefined || mm === 0 ? plain : { ...plain, slot: mm } })
              }}
            />
          </>
        )}
      </div>
    </section>
  )
}

/** A table to start from: a common one here and there. */
const usualTable = (shop: Shop): Table => ({
  ...(unitsOf(shop.reading) === 'in'
    ? { length: 78 * 25.4, width: 38 * 25.4 }
    : { length: 2000, width: 1000 }),
  clear: usualClear(shop),
})
