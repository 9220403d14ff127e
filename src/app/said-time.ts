/** A time of the log as people here say it: the date and the time of day where this device is. */
export function sayTime(at: string): string {
  const time = new Date(at)
  if (Number.isNaN(time.getTime())) return at
  const two = (number: number) => String(number).padStart(2, '0')
  const date = `${time.getFullYear()}-${two(time.getMonth() + 1)}-${two(time.getDate())}`
  return `${date} ${two(time.getHours())}:${two(time.getMinutes())}`
}
