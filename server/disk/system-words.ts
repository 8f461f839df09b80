/** What an exception says, in one line, whatever was thrown. */
export const wordsOf = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split("\n", 1)[0] ?? "";

/** A system error in a few words; `undefined` where it is none that a volunteer can do something about. */
export const systemWords = (error: unknown): string | undefined => {
  const code = error instanceof Error && "code" in error ? error.code : undefined;
  switch (code) {
    case "ENOENT": return "there is no such file";
    case "ENOTDIR": return "there is no such file";
    case "EISDIR": return "it is a folder, not a file";
    case "EACCES": case "EPERM": return "it may not be opened (no permission)";
    case "ELOOP": return "it is a link that leads round in a circle";
    case "ENAMETOOLONG": return "its name is too long";
    case "EMFILE": case "ENFILE": return "too many files are open";
    case "ENOSPC": return "the disk is full";
    case "EROFS": return "the disk can only be read";
    default: return undefined;
  }
};
