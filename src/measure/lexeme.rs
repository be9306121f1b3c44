//! Characters of a length → numbers, fractions, units and dashes.

use rust_decimal::Decimal;

use super::LengthFault;

/// A unit word or mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum UnitWord {
    /// `'`, ft, foot, feet.
    Foot,
    /// `"`, in, inch, inches.
    Inch,
    /// mm.
    Mm,
    /// cm.
    Cm,
    /// m, meter, metre.
    Metre,
}

/// One piece of a written length.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Lexeme {
    /// A whole or decimal number, with its digits as written.
    Number(Decimal, String),
    /// A proper binary fraction.
    Fraction(Decimal),
    /// A unit.
    Unit(UnitWord),
    /// A hyphen or dash.
    Dash,
}

/// Longest text taken for a length.
const LONGEST: usize = 64;

/// Typographic forms → plain ones; vulgar fractions → ` 1/2`.
fn plain(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '′' | '’' | '‘' | 'ʹ' | 'ʼ' | '´' | '`' => out.push('\''),
            '″' | '”' | '“' | 'ʺ' | '„' | '‟' | '〃' => out.push('"'),
            '−' | '–' | '—' | '‐' | '‑' => out.push('-'),
            '⁄' | '∕' => out.push('/'),
            '½' => out.push_str(" 1/2"),
            '¼' => out.push_str(" 1/4"),
            '¾' => out.push_str(" 3/4"),
            '⅛' => out.push_str(" 1/8"),
            '⅜' => out.push_str(" 3/8"),
            '⅝' => out.push_str(" 5/8"),
            '⅞' => out.push_str(" 7/8"),
            c if c.is_whitespace() => out.push(' '),
            c => out.extend(c.to_lowercase()),
        }
    }
    out.replace("''", "\"")
}

/// Splits a written length.
pub(super) fn lexemes(text: &str) -> Result<Vec<Lexeme>, LengthFault> {
    if text.chars().count() > LONGEST {
        return Err(LengthFault::new(
            "this is too long to be a length",
            "write one length, such as 10'-6 1/2\" or 3213 mm",
        ));
    }
    let text = plain(text);
    if !text.contains(|c: char| c.is_ascii_digit()) && text.contains(char::is_alphabetic) {
        return Err(LengthFault::new(
            &format!("\"{}\" is not a length", text.trim()),
            "write digits with their unit, such as 10'-6 1/2\" or 3213 mm",
        ));
    }
    let chars: Vec<char> = text.chars().collect();
    let mut out = Vec::new();
    let mut i = 0;
    while i < chars.len() {
        let c = chars[i];
        let end = |from: usize, keep: fn(char) -> bool| {
            from + chars[from..].iter().take_while(|&&c| keep(c)).count()
        };
        match c {
            ' ' => i += 1,
            '-' => {
                out.push(Lexeme::Dash);
                i += 1;
            }
            '\'' => {
                out.push(Lexeme::Unit(UnitWord::Foot));
                i += 1;
            }
            '"' => {
                out.push(Lexeme::Unit(UnitWord::Inch));
                i += 1;
            }
            c if c.is_ascii_digit() || c == '.' || c == ',' => {
                let to = grouped_end(&chars, i);
                let number = chars[i..to].iter().filter(|&&c| c != ' ').collect();
                i = fraction_or_number(&chars, number, to, &mut out)?;
            }
            c if c.is_alphabetic() => {
                let to = end(i, |c| c.is_alphabetic() || c == '.');
                let word: String = chars[i..to].iter().collect();
                out.push(Lexeme::Unit(unit_word(word.trim_end_matches('.'))?));
                i = to;
            }
            _ => {
                return Err(LengthFault::new(
                    &format!("'{c}' has no place in a length"),
                    "write digits with ' \" ft in mm cm or m, such as 10'-6 1/2\" or 3213 mm",
                ));
            }
        }
    }
    Ok(out)
}

/// Where a number ends that starts at `from`: digits, points and commas, and digits grouped in threes
/// by spaces (`1 800`, as ISO 80000-1 has it), which no feet and inches look like.
fn grouped_end(chars: &[char], from: usize) -> usize {
    let run = |at: usize, keep: fn(char) -> bool| {
        at + chars[at..].iter().take_while(|&&c| keep(c)).count()
    };
    let digits = |at: usize| run(at, |c| c.is_ascii_digit());
    let mut to = digits(from);
    if (1..=3).contains(&(to - from)) && chars[from] != '0' {
        while chars.get(to) == Some(&' ')
            && digits(to + 1) == to + 4
            && chars.get(to + 4) != Some(&'/')
        {
            to += 4;
        }
    }
    run(to, |c| c.is_ascii_digit() || c == '.' || c == ',')
}

/// Pushes the number, or the fraction when a slash follows; returns where reading goes on.
fn fraction_or_number(
    chars: &[char],
    number: String,
    at: usize,
    out: &mut Vec<Lexeme>,
) -> Result<usize, LengthFault> {
    let slash = at + chars[at..].iter().take_while(|&&c| c == ' ').count();
    if chars.get(slash) != Some(&'/') {
        let value = decimal(&number)?;
        out.push(Lexeme::Number(value, number));
        return Ok(at);
    }
    let from = slash + 1 + chars[slash + 1..].iter().take_while(|&&c| c == ' ').count();
    let to = from
        + chars[from..]
            .iter()
            .take_while(|c| c.is_ascii_digit())
            .count();
    let under: String = chars[from..to].iter().collect();
    out.push(Lexeme::Fraction(fraction(&number, &under)?));
    Ok(to)
}

fn fraction(over: &str, under: &str) -> Result<Decimal, LengthFault> {
    let bad = || {
        LengthFault::new(
            &format!("{over}/{under} is not a fraction of the tape"),
            "write halves, quarters, 8ths, 16ths, 32nds or 64ths, such as 6 1/2",
        )
    };
    let (n, d): (u32, u32) = match (over.parse(), under.parse()) {
        (Ok(n), Ok(d)) => (n, d),
        _ => return Err(bad()),
    };
    if !d.is_power_of_two() || !(2..=128).contains(&d) || n == 0 {
        return Err(bad());
    }
    if n >= d {
        let whole = &over[..over.len().saturating_sub(1)];
        let last = &over[over.len().saturating_sub(1)..];
        let apart = if whole.is_empty() {
            String::new()
        } else {
            format!(" or {whole} {last}/{under}")
        };
        return Err(LengthFault::two_readings(
            &format!("{over}/{under} can be read two ways"),
            &format!("write {} {}/{under}{apart}, with a space", n / d, n % d),
        ));
    }
    Ok(Decimal::from(n) / Decimal::from(d))
}

fn unit_word(word: &str) -> Result<UnitWord, LengthFault> {
    const MONTHS: [&str; 12] = [
        "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
    ];
    match word {
        "ft" | "foot" | "feet" => Ok(UnitWord::Foot),
        "in" | "inch" | "inches" | "ins" => Ok(UnitWord::Inch),
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Ok(UnitWord::Mm),
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Ok(UnitWord::Cm),
        "m" | "metre" | "metres" | "meter" | "meters" => Ok(UnitWord::Metre),
        w if MONTHS.iter().any(|m| w.starts_with(m)) => Err(LengthFault::new(
            "this is a date: the spreadsheet has made one of a length such as 5/16 or 6-5",
            "format the column as text and write the length again",
        )),
        _ => Err(LengthFault::new(
            &format!("'{word}' is not a unit"),
            "use ' or ft, \" or in, mm, cm or m",
        )),
    }
}

/// A number with optional thousands separators or a decimal comma, when only one reading exists.
fn decimal(raw: &str) -> Result<Decimal, LengthFault> {
    let groups = |s: &str, sep: char| {
        let parts: Vec<&str> = s.split(sep).collect();
        parts.len() > 1
            && (1..=3).contains(&parts[0].len())
            && parts.iter().skip(1).all(|p| p.len() == 3)
    };
    let commas = raw.matches(',').count();
    let dots = raw.matches('.').count();
    let digits = match (commas, dots) {
        (0, 0 | 1) => raw.to_owned(),
        (1, 0) if groups(raw, ',') => {
            let (a, b) = raw.split_once(',').unwrap_or((raw, ""));
            return Err(LengthFault::two_readings(
                &format!("{raw} can be read as {a}.{b} or as {a}{b}"),
                &format!("write {a}.{b} or {a}{b}"),
            ));
        }
        (1, 0) => raw.replace(',', "."),
        (_, 0 | 1) if groups(raw.split('.').next().unwrap_or(""), ',') => raw.replace(',', ""),
        (1, _) if groups(raw.split(',').next().unwrap_or(""), '.') => {
            raw.replace('.', "").replace(',', ".")
        }
        _ => String::new(),
    };
    let padded = if digits.starts_with('.') {
        format!("0{digits}")
    } else {
        digits
    };
    let padded = padded.strip_suffix('.').unwrap_or(&padded);
    let counted = raw.chars().filter(char::is_ascii_digit).count();
    match Decimal::from_str_exact(padded) {
        Ok(value) if (1..=18).contains(&counted) => Ok(value),
        _ => Err(LengthFault::new(
            &format!("'{raw}' is not a number"),
            "write digits with at most one decimal point, such as 126.5",
        )),
    }
}
