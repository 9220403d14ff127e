/** Money is kept in whole cents. */
export const sayMoney = (cents: number, currency: string): string => `${currency}${(cents / 100).toFixed(2)}`
