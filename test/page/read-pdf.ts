import { PDFiumLibrary } from '@hyzyla/pdfium';

export interface PdfPage { readonly widthPt: number; readonly heightPt: number; readonly text: string }

/** Pages of a PDF with their size in points and their text, blanks and line ends as one blank. */
export async function readPdf(bytes: Uint8Array): Promise<PdfPage[]> {
  const library = await PDFiumLibrary.init();
  try {
    const document = await library.loadDocument(bytes);
    return [...document.pages()].map((page) => {
      const { originalWidth, originalHeight } = page.getOriginalSize();
      return { widthPt: originalWidth, heightPt: originalHeight, text: page.getText().replace(/\s+/g, ' ') };
    });
  } finally { library.destroy(); }
}
