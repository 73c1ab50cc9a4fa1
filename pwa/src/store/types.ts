/** An entry as docs/record.md defines it, and how the phone keeps it. */

export interface Entry {
  id: string;
  subject: string;
  kind: string;
  noted_at: string;
  stamp: string;
  device: string;
  n: number;
  prev: string;
  seen: number;
  by: string;
  body: Record<string, unknown>;
}

/** An entry with the server's place beside it: `seq` is null until the server has it. */
export interface Kept {
  seq: number | null;
  received_at: string | null;
  /** The exact text the entry was written to once; its UTF-8 bytes are what is hashed and sent. */
  text: string;
  subject: string;
  id: string;
  stamp: string;
  device: string;
  n: number;
}

/** A new entry before it is written: what a screen hands to the record. */
export interface Draft {
  subject: string;
  kind: string;
  body: Record<string, unknown>;
}
