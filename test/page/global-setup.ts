import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import type { FoundBrowser } from './find-browser.ts';
import { findBrowser } from './find-browser.ts';
import { createScratchFolder } from './scratch-folder.ts';
import { servePage } from './serve-page.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the built page, with a slash at its end. */
    readonly pageUrl: string;
    /** Where the built files lie. */
    pageFolder: string;
    readonly browser: FoundBrowser;
    /** Folder for whatever the browser writes; removed after the last test. */
    readonly scratch: string;
  }
}

/** Builds and serves the page once, and finds a browser; the function returned undoes all of it. */
export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const { root } = project.config;
  const scratch = createScratchFolder();
  try {
    const browser = await findBrowser(root, join(scratch.path, 'browser'));
    const served = await servePage(root, scratch.path);
    project.provide('pageUrl', served.url);
    project.provide('pageFolder', served.folder);
    project.provide('browser', browser);
    project.provide('scratch', scratch.path);
    return async () => {
      await served.close();
      scratch.remove();
    };
  } catch (error) {
    scratch.remove();
    throw error;
  }
}
