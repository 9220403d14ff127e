// Checks every tsconfig.*.json project, two at a time (the machines it is made for have two cores).
import { spawn } from 'node:child_process'
import { readdirSync } from 'node:fs'

const only = process.argv.slice(2)
const projects = readdirSync('.')
  .filter((name) => /^tsconfig\.(?!base)[\w-]+\.json$/.test(name))
  .filter((name) => only.length === 0 || only.some((word) => name === `tsconfig.${word}.json`))

/** @param {string} project @returns {Promise<boolean>} */
function check(project) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [
      'node_modules/typescript/bin/tsc',
      '-p',
      project,
      '--pretty',
      'false',
    ])
    let text = ''
    child.stdout.on('data', (chunk) => {
      text += chunk
    })
    child.stderr.on('data', (chunk) => {
      text += chunk
    })
    child.on('close', (code) => {
      const ok = code === 0
      console.log(`types ${project}: ${ok ? 'ok' : 'FAILED'}`)
      if (!ok) console.log(text.trimEnd())
      resolve(ok)
    })
  })
}

const queue = [...projects]
let failed = 0
async function work() {
  for (let next = queue.shift(); next; next = queue.shift()) if (!(await check(next))) failed += 1
}
await Promise.all([work(), work()])
process.exit(failed === 0 ? 0 : 1)
