/** What the tests use of a package that brings no types. */
declare module 'split-sms' {
  export interface Split {
    readonly characterSet: 'GSM' | 'Unicode';
    readonly parts: readonly { readonly content: string }[];
  }
  export function split(text: string): Split;
}
