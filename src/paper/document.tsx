import { Fragment, type ReactNode } from 'react'
import { renderToStaticMarkup } from 'react-dom/server'
import sketchCss from '../ui/drawing/sketch.css?raw'
import css from './paper.css?raw'

/** The pages as an HTML text that stands alone, to be printed without the app: the same pages in the same style. */
export function paperDocument(title: string, pages: readonly ReactNode[]): string {
  return `<!doctype html>${renderToStaticMarkup(
    <html lang="en">
      <head>
        <meta charSet="utf-8" />
        <title>{title}</title>
        <style>{`${css}${sketchCss}`}</style>
      </head>
      <body className="paper-print">
        {pages.map((page, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: pages have no other name than their number
          <Fragment key={at}>{page}</Fragment>
        ))}
      </body>
    </html>,
  )}`
}
