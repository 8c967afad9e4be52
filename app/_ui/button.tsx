import type { ComponentProps, ReactNode } from 'react'

/** `filled` once a screen: the one thing to do. */
export type ButtonWeight = 'filled' | 'outlined' | 'plain'

function classOf(weight: ButtonWeight, tall: boolean): string {
  return `btn${weight === 'outlined' ? '' : ` ${weight}`}${tall ? ' tall' : ''}`
}

export type ButtonProps = Omit<ComponentProps<'button'>, 'className'> & {
  readonly weight?: ButtonWeight
  /** 52 px high, for a vet's slot. */
  readonly tall?: boolean
  /** The keys that do the same, shown where there is a keyboard. */
  readonly keys?: string
}

export function Button({ weight = 'outlined', tall = false, keys, type, children, ...rest }: ButtonProps) {
  return (
    <button {...rest} type={type ?? 'submit'} className={classOf(weight, tall)}>
      {children}
      {keys !== undefined && <kbd>{keys}</kbd>}
    </button>
  )
}

export type ButtonLinkProps = Omit<ComponentProps<'a'>, 'className'> & {
  readonly weight?: ButtonWeight
  readonly tall?: boolean
}

export function ButtonLink({ weight = 'outlined', tall = false, children, ...rest }: ButtonLinkProps) {
  return (
    <a {...rest} className={classOf(weight, tall)}>
      {children}
    </a>
  )
}

/** Buttons in a row on wide screens, full width under each other on a phone. */
export function Actions({ children }: { readonly children: ReactNode }) {
  return <div className="do">{children}</div>
}
