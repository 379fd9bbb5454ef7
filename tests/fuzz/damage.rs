//! Damage to a text, the same for the same seed: flipped bits, swapped lines, hostile pieces, and numbers that are others.

/// Pieces of text that hurt most where they do not belong.
const TOKENS: [&str; 26] = [
    "\"",
    "[",
    "]]",
    "{",
    "}",
    "=",
    ",",
    ";",
    "inf",
    "nan",
    "-1",
    "0",
    "\"0 mm\"",
    "\"-5 mm\"",
    "\"1e308 m\"",
    "\"inf m\"",
    "\"1e-320 in\"",
    "99999999999999999999",
    "\"ü µ 中\"",
    "\u{1b}[2J",
    "\n[[pass]]\n",
    "\n[member]\n",
    "to = ",
    "true",
    "\"L/0\"",
    "\n\n# up: outer\n",
];

/// Numbers that no joint, shop or piece has.
const NUMBERS: [&str; 12] =
    ["0", "-1", "1e308", "-1e308", "5e-324", "1e-9", "1e9", "nan", "inf", "-0.0", "0.001", "4294967296"];

/// xorshift64*: cheap, and the same on every machine (Vigna, 2016; constants: memory, sure).
#[derive(Debug, Clone)]
pub(crate) struct Dice(u64);

impl Dice {
    /// Of one case of one run.
    pub(crate) fn new(seed: u64, case: u64) -> Self {
        let mixed = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ case.wrapping_mul(0xD1B5_4A32_D192_ED03);
        let mut dice = Self(mixed | 1);
        for _ in 0..4 {
            dice.next();
        }
        dice
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 1
    }

    /// A whole number below another.
    pub(crate) fn below(&mut self, most: usize) -> usize {
        (self.next() % most.max(1) as u64) as usize
    }

    /// Between 0 and 1.
    pub(crate) fn part(&mut self) -> f64 {
        self.next() as f64 / (u64::MAX >> 1) as f64
    }

    /// One of several.
    pub(crate) fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())]
    }

    /// The text with its numbers changed, broken, or both.
    pub(crate) fn damaged(&mut self, text: &str) -> String {
        match self.below(10) {
            0..=5 => self.renumbered(text, 4),
            6..=8 => self.broken(text),
            _ => {
                let text = self.renumbered(text, 4);
                self.broken(&text)
            }
        }
    }

    /// The text with up to so many of its numbers replaced: mostly by likely ones, sometimes by what none can be.
    pub(crate) fn renumbered(&mut self, text: &str, most: usize) -> String {
        let mut text = text.to_owned();
        for _ in 0..=self.below(most) {
            let places = numbers(&text);
            if places.is_empty() {
                return text;
            }
            let place = places[self.below(places.len())].clone();
            let was: f64 = text[place.clone()].parse().unwrap_or(1.0);
            let number = match self.below(10) {
                0 => self.one(&NUMBERS).to_owned(),
                1 => format!("{}", was * 10f64.powi(self.below(7) as i32 - 3)),
                2 => format!("{}", (was * (3.0 * self.part())).round()),
                _ => format!("{:.4}", was * (3.0 * (self.part() - 0.5)).exp()),
            };
            text.replace_range(place, &number);
        }
        text
    }

    /// The text with bits flipped, lines swapped, doubled or left out, and pieces put in.
    fn broken(&mut self, text: &str) -> String {
        let mut bytes = text.as_bytes().to_vec();
        for _ in 0..=self.below(3) {
            match self.below(5) {
                0 => {
                    let at = self.below(bytes.len());
                    if let Some(byte) = bytes.get_mut(at) {
                        *byte ^= 1 << self.below(8);
                    }
                }
                1 | 2 => {
                    let mut lines: Vec<_> = bytes.split(|b| *b == b'\n').map(<[u8]>::to_vec).collect();
                    let (a, b) = (self.below(lines.len()), self.below(lines.len()));
                    match self.below(3) {
                        0 => lines.swap(a, b),
                        1 => lines.insert(a, lines[b].clone()),
                        _ => drop(lines.remove(a)),
                    }
                    bytes = lines.join(&b'\n');
                }
                3 => {
                    let at = self.below(bytes.len());
                    let cut = self.below(6).min(bytes.len() - at);
                    let token = self.one(&TOKENS);
                    bytes.splice(at..at + cut, token.bytes());
                }
                _ => {
                    let quotes: Vec<_> = (0..bytes.len()).filter(|at| bytes[*at] == b'"').collect();
                    let pair = self.below(quotes.len() / 2);
                    if let Some([from, to]) = quotes.chunks_exact(2).nth(pair).map(|q| [q[0], q[1]]) {
                        let token = self.one(&TOKENS);
                        bytes.splice(from..=to, token.bytes());
                    }
                }
            }
        }
        String::from_utf8_lossy(&bytes).into_owned()
    }
}

/// Places of numbers in a text, those of remarks too: in a measured piece they say what is known of it.
fn numbers(text: &str) -> Vec<std::ops::Range<usize>> {
    let bytes = text.as_bytes();
    let (mut places, mut at) = (Vec::new(), 0);
    while at < bytes.len() {
        let starts = bytes[at].is_ascii_digit() && (at == 0 || !bytes[at - 1].is_ascii_alphanumeric());
        if !starts {
            at += 1;
            continue;
        }
        let from = at;
        while at < bytes.len() && (bytes[at].is_ascii_digit() || bytes[at] == b'.') {
            at += 1;
        }
        places.push(from..at);
    }
    places
}
