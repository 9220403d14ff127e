// Serves a built folder on this machine: `node scripts/serve.mjs [--dir dist] [--port 4173] [--host 127.0.0.1]`
import { createReadStream, existsSync } from 'node:fs'
import { stat } from 'node:fs/promises'
import { createServer } from 'node:http'
import { extname, join, resolve, sep } from 'node:path'
import { pathToFileURL } from 'node:url'
import { parseArgs } from 'node:util'
import { contentPolicy } from './policy.mjs'

/** @type {Record<string, string>} */
const kinds = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.woff2': 'font/woff2',
}

/**
 * The file that an address asks for, or nothing where it points outside `root` or at what no address may name.
 * @param {string} root absolute path
 * @param {string} address path of the request, still percent-encoded
 * @returns {string | undefined}
 */
export function fileFor(root, address) {
  let path = ''
  try {
    path = decodeURIComponent(address.split(/[?#]/)[0] ?? '')
  } catch {
    return undefined
  }
  if (path.includes('\0') || path.includes('\\') || path.split('/').some((part) => part.startsWith('.')))
    return undefined
  const file = resolve(root, `.${path.endsWith('/') ? `${path}index.html` : path}`)
  return file.startsWith(root + sep) ? file : undefined
}

/**
 * Serves `dir` and resolves once it listens; a taken port moves on to the next, port 0 takes any free one.
 * @param {{ dir: string, port?: number, host?: string }} options
 * @returns {Promise<{ url: string, port: number, close: () => Promise<void> }>} close also cuts open connections
 */
export async function serve({ dir, port = 0, host = '127.0.0.1' }) {
  const root = resolve(dir)
  const server = createServer(async (request, response) => {
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.writeHead(405, { allow: 'GET, HEAD' }).end()
      return
    }
    const file = fileFor(root, request.url ?? '/')
    const found = file === undefined ? undefined : await stat(file).catch(() => undefined)
    if (file === undefined || !found?.isFile()) {
      response.writeHead(404, { 'content-type': 'text/plain; charset=utf-8' }).end('Not found\n')
      return
    }
    const hashed = file.startsWith(join(root, 'assets') + sep)
    response.writeHead(200, {
      'content-type': kinds[extname(file)] ?? 'application/octet-stream',
      'content-length': found.size,
      // The build puts a hash into every name under assets/; all else must be asked for again each time.
      'cache-control': hashed ? 'public, max-age=31536000, immutable' : 'no-cache',
      'content-security-policy': contentPolicy,
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
    })
    if (request.method === 'HEAD') response.end()
    else
      createReadStream(file)
        .on('error', () => response.destroy())
        .pipe(response)
  })

  for (let tries = 0; ; tries += 1) {
    const taken = await new Promise((done, fail) => {
      server.once('error', (/** @type {NodeJS.ErrnoException} */ error) =>
        error.code === 'EADDRINUSE' && port !== 0 && tries < 50 ? done(true) : fail(error),
      )
      server.listen(port === 0 ? 0 : port + tries, host, () => done(false))
    })
    server.removeAllListeners('error')
    if (!taken) break
    server.removeAllListeners('listening')
  }

  const address = server.address()
  const at = address && typeof address === 'object' ? address.port : port
  const name = host === '127.0.0.1' ? 'localhost' : host
  return {
    url: `http://${name}:${at}/`,
    port: at,
    close: () =>
      new Promise((done) => {
        server.close(() => done())
        server.closeAllConnections()
      }),
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { values } = parseArgs({
    options: {
      dir: { type: 'string', default: 'dist' },
      port: { type: 'string', default: '4173' },
      host: { type: 'string', default: '127.0.0.1' },
    },
  })
  if (!existsSync(join(values.dir, 'index.html'))) {
    console.error(`Nothing built in ${values.dir}/: run "npm start", which builds first.`)
    process.exit(1)
  }
  const port = Number(values.port)
  if (!Number.isInteger(port) || port < 0 || port > 65535) {
    console.error(`A port is a whole number from 0 to 65535, not "${values.port}".`)
    process.exit(1)
  }
  const site = await serve({ dir: values.dir, port, host: values.host })
  if (site.port !== port && port !== 0)
    console.log(`Port ${port} is taken. A browser keeps jobs by address: those made at ${port} stay there.`)
  console.log(`Longpoint: ${site.url}  (stop with Ctrl+C)`)
  for (const signal of ['SIGINT', 'SIGTERM'])
    process.on(signal, () => site.close().then(() => process.exit(0)))
}
