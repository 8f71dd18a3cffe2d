declare const DAVIT_VERSION: string | undefined;

/** Version of this build; the build puts it in from package.json. */
export const VERSION: string = typeof DAVIT_VERSION === "string" ? DAVIT_VERSION : "unbuilt";
