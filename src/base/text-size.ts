/** Bytes of a text in UTF-8; counting stops beyond `limit` (the answer is then more than it). */
export function utf8Length(text: string, limit = Infinity): number {
  let bytes = 0;
  for (let i = 0; i < text.length && bytes <= limit; i++) {
    const unit = text.charCodeAt(i);
    if (unit < 0x80) bytes += 1;
    // A surrogate pair is four bytes in two units.
    else if (unit < 0x800 || (unit >= 0xd800 && unit <= 0xdfff)) bytes += 2;
    else bytes += 3;
  }
  return bytes;
}
