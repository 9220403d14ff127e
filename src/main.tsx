import { createRoot } from 'react-dom/client'

// Placeholder until the composition root stands here.
const root = document.getElementById('root')
if (root) createRoot(root).render(<h1>Longpoint</h1>)
