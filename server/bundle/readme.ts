import type { Checkpoint } from '#lib/record/note';
import { wordsOf } from '#lib/record/words';

/** What a bundle says of itself, to somebody who has nothing but the file. */
export const readmeText = (
  mark: string,
  head: Checkpoint,
): string => `Batch ${mark}: what was recorded, and how to check that nobody changed it
=====================================================================

record.html     the batch for people to read
entries.jsonl   what was entered of the batch and its bars, one line of JSON each, byte for byte as it was hashed
chain.txt       the journal from the head before the batch to the head after it; one row a line: number, leaf, link, whose
head-before.txt the signed head before the batch (not there when the batch is the first thing in the journal)
head-after.txt  the signed head after it
key.txt         the public keys: name+id+key
key.pem         the key of the head after, as openssl reads it
blobs/          stored readings, pictures and other bytes that entries name by their SHA-256
stamp.tsr       a time stamp (RFC 3161) on head-after.txt, where one was asked for
verify.py       a checker: python3 verify.py
sums.txt        SHA-256 of every other part: sha256sum -c sums.txt
seal.txt        the signed SHA-256 of sums.txt: these parts, this page and these entries are all the bundle was made of

How it hangs together
---------------------
leaf = SHA-256 of a line of entries.jsonl, without its line end.
link = SHA-256 of the link before it (32 bytes) followed by the leaf (32 bytes). Before the first line of a journal: 32 zero bytes.
Lines marked "own" are this batch's and its bars', in the order of entries.jsonl. Of lines marked "other" only the leaf is here: they belong to other
batches. Lines marked "withdrawn" had a text that was taken out of the record for good; their leaves still count.
A head is a note in the form of https://c2sp.org/signed-note: whose journal, how many lines, the link of the newest in base64, an empty
line, and the signature (Ed25519) over the three lines with their line ends. chain.txt must begin at the one head and end at the other.
seal.txt has the same form: the head's name with /bundle behind it, how many entries there are, SHA-256 of sums.txt in base64. Leaves do not say
whose they are: without the seal, the newest entries could be passed off as another batch's.
Every line holds a random salt, so that a line that is not here cannot be guessed from its leaf.

What this proves, and what not
------------------------------
It proves that these entries are what the signed head was made of: nothing in them was changed, put in, left out or moved since that head.
It does not prove that the head is the one of that day. Whoever holds the bench machine holds the key, and could write a whole record anew.
Only a head that somebody else has kept since (on a printed record, on a label, in a letter, under a time stamp) shows that this did not
happen, and only for lines up to that head. The key is
taken from the bundle: compare it with the one the workshop handed on before. Its fingerprint is SHA-256 of its 32 bytes:
  openssl pkey -pubin -in key.pem -outform DER | tail -c 32 | sha256sum
Nothing proves that what was entered is true; weights say which instrument they came from.

The head after this batch, to be compared:
  ${head.origin}
  line ${head.seq}
  ${wordsOf(head.link)}
  ${head.link}
`;
