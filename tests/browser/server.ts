import { readFile } from 'node:fs/promises'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { extname, join, normalize } from 'node:path'
import { fileURLToPath } from 'node:url'

/** The built app. */
export const DIST = fileURLToPath(new URL('../../dist/', import.meta.url))

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
}

export interface Server {
  /** The app's address, with a slash at its end. */
  readonly url: string
  /** Every path asked for so far, in order. */
  readonly asked: readonly string[]
  /** Closes the port and every open connection: from here on the host is gone. */
  readonly stop: () => Promise<void>
}

export interface Serving {
  readonly folder?: string
  /** 0 takes any free port; a port that was stopped may be taken again. */
  readonly port?: number
  /** The path that the app lies under, such as `/tools/ohmward/`. */
  readonly under?: string
}

/** Serves a folder on the loopback address alone, as a plain static host does: no rewriting, nothing cached. */
export const serve = async ({ folder = DIST, port = 0, under = '/' }: Serving = {}): Promise<Server> => {
  const asked: string[] = []
  const server = createServer(async (request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://localhost')
    asked.push(pathname)
    const inside = pathname.startsWith(under) ? normalize(decodeURIComponent(pathname.slice(under.length))) : '..'
    const file = inside === '.' ? 'index.html' : inside
    try {
      if (file.startsWith('..')) throw new Error('outside')
      const body = await readFile(join(folder, file))
      response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream', 'cache-control': 'no-cache' }).end(body)
    } catch {
      response.writeHead(404, { 'content-type': 'text/plain' }).end('not here')
    }
  })
  await new Promise<void>((listening, failed) => {
    server.once('error', failed)
    server.listen(port, '127.0.0.1', listening)
  })
  const address = server.address() as AddressInfo
  return {
    url: `http://127.0.0.1:${address.port}${under}`,
    asked,
    stop: () =>
      new Promise(stopped => {
        server.close(() => stopped())
        server.closeAllConnections()
      }),
  }
}
