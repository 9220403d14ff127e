import { rescue, rescueText } from './rescue.ts'

// The script of rescue.html, a page that leans on nothing of the app: it works when the app does not start.

const button = document.querySelector('button')
const said = document.querySelector('[role=status]')

button?.addEventListener('click', async () => {
  const say = (text: string) => {
    if (said) said.textContent = text
  }
  try {
    const text = rescueText(await rescue())
    const link = document.createElement('a')
    link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }))
    link.download = 'everything.tube-rescue.json'
    link.click()
    say('The rescue file was handed to the browser. Look that it is there, and keep it elsewhere.')
  } catch (error) {
    say(error instanceof Error ? error.message : String(error))
  }
})
