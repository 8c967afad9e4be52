import { useEffect, useRef, useState } from 'react'

/**
 * Ctrl or Cmd with Z takes the last tap back: ten seconds are too short to tab to the button from far up a long round.
 * Without anything to take back nothing listens. Whether the keys are listened to, so that a button names them only then.
 */
export function useTakeBackKey(takeBack: (() => void) | undefined): boolean {
  const newest = useRef(takeBack)
  useEffect(() => {
    newest.current = takeBack
  })
  const [listens, setListens] = useState(false)
  const isOffered = takeBack !== undefined
  useEffect(() => {
    if (!isOffered) return
    const onKey = (event: KeyboardEvent) => {
      const isTyping = event.target instanceof HTMLInputElement && event.target.value !== ''
      if (event.key !== 'z' || !(event.ctrlKey || event.metaKey) || isTyping) return
      event.preventDefault()
      newest.current?.()
    }
    document.addEventListener('keydown', onKey)
    setListens(true)
    return () => {
      document.removeEventListener('keydown', onKey)
      setListens(false)
    }
  }, [isOffered])
  return listens
}
