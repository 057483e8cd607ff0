/**
 * The checker that goes with every bundle, so that nothing of ours is needed to hold it against its signed head. Python with hashlib, and
 * the openssl program for the signatures.
 */
export const VERIFIER = String.raw`#!/usr/bin/env python3
"""Checks the bundle this file lies in, unpacked:  python3 verify.py [HEAD ...]
HEAD: a file with a head kept elsewhere (its three lines, as a printed code holds them, are enough)."""
import base64, hashlib, os, subprocess, sys, tempfile

here = os.path.dirname(os.path.abspath(__file__))
wrong = []


def part(name):
    with open(os.path.join(here, name), 'rb') as file:
        return file.read()


def sha(data):
    return hashlib.sha256(data).digest()


def say(text):
    wrong.append(text)
    print('WRONG: ' + text)


def head(text):
    """Whose journal, how many lines, the link of the newest."""
    origin, size, link = text.decode().split('\n')[:3]
    return origin, int(size), base64.b64decode(link)


def signed(name):
    """The text of a note ends at its last empty line; each line below is a signature: a dash, a name, key id and signature."""
    text, below = part(name).rsplit(b'\n\n', 1)
    text += b'\n'
    for line in part('key.txt').decode().splitlines():
        key_name, key_id, key = line.split('+', 2)
        key = base64.b64decode(key)
        for signature in below.decode().splitlines():
            signer, data = signature.split(' ')[1:3]
            data = base64.b64decode(data)
            if signer == key_name == head(text)[0] and data[:4].hex() == key_id and key_id == sha(key_name.encode() + b'\n' + key)[:4].hex():
                with tempfile.TemporaryDirectory() as folder:
                    paths = [os.path.join(folder, file) for file in ('key', 'text', 'signature')]
                    for path, content in zip(paths, (bytes.fromhex('302a300506032b6570032100') + key[1:], text, data[4:])):
                        open(path, 'wb').write(content)
                    command = ['openssl', 'pkeyutl', '-verify', '-pubin', '-keyform', 'DER', '-inkey', paths[0], '-rawin', '-in', paths[1], '-sigfile', paths[2]]
                    if subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode == 0:
                        return head(text) + (key,)
    say(name + ' is not signed by the key in key.txt')
    return head(text) + (None,)


for line in part('sums.txt').decode().splitlines():
    if hashlib.sha256(part(line[66:])).hexdigest() != line[:64]:
        say(line[66:] + ' was changed')

before = signed('head-before.txt') if os.path.exists(os.path.join(here, 'head-before.txt')) else (None, 0, bytes(32))
after = signed('head-after.txt')
if os.path.exists(os.path.join(here, 'seal.txt')):
    sealed, _, sums, key = signed('seal.txt')
    if (sealed, sums, key) != (after[0] + '/bundle', sha(part('sums.txt')), after[3]):
        say('the parts are not those the bundle was sealed with')
else:
    say('seal.txt is missing: nobody says that these parts are all there were')
entries = part('entries.jsonl').split(b'\n')[:-1]
own = withdrawn = 0
links = {}
for row in part('chain.txt').decode().splitlines():
    number, leaf, stated, what = row.split(' ')
    if what == 'start':
        seq, link = int(number), bytes.fromhex(stated)
        if (seq, link) != before[1:3]:
            say('the chain does not begin at the head before it')
    else:
        seq += 1
        link = sha(link + bytes.fromhex(leaf))
        if int(number) != seq or link.hex() != stated:
            say('the chain breaks at line ' + number)
            seq, link = int(number), bytes.fromhex(stated)
        withdrawn += what == 'withdrawn'
        if what == 'own':
            if own >= len(entries):
                say('the entry of line ' + number + ' is missing')
            elif sha(entries[own]).hex() != leaf:
                say('entry ' + str(own + 1) + ' is not what line ' + number + ' was made of')
            own += 1
    links[seq] = link
if len(entries) > own:
    say(str(len(entries) - own) + ' entries too many')
if (seq, link) != after[1:3]:
    say('the chain does not end in the signed head')
for name in sys.argv[1:]:
    with open(name, 'rb') as file:
        origin, size, link = head(file.read())
    if origin != after[0] or links.get(size) != link:
        say('the head in ' + name + ' is not in this chain')
if after[3]:
    print('key believed, as it stands in key.txt: ' + after[0])
    print('  fingerprint (SHA-256) ' + sha(after[3][1:]).hex())
print('%d entries of lines %d to %d of %s; %d withdrawn' % (len(entries), before[1] + 1, after[1], after[0], withdrawn))
print('%d things are wrong' % len(wrong) if wrong else 'nothing is wrong: what is here is what the signed head was made of')
if not wrong and len(sys.argv) < 2:
    print('WARNING: it believed the bundle\'s own key. Anybody can make a key and sign with it: compare its fingerprint, or give a head kept elsewhere')
sys.exit(1 if wrong else 0)
`;
