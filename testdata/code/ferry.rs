//! A timetable of the invented ferry, in brackets ( and "quotes".
use std::collections::HashMap;

/// The hours of service.
pub const FIRST: u32 = 6;
const GREETING: &str = "On board, \"please\" // mind the gap";
const RAW: &str = r#"a "raw" string { with } braces"#;

#[derive(Debug, Clone, PartialEq)]
pub struct Timetable<'a> {
    sailings: HashMap<&'a str, Vec<u32>>,
    mark: char,
}

impl<'a> Timetable<'a> {
    /* Nested /* comments */ are one. */
    pub fn after(&self, pier: &'a str, hour: u32) -> Option<Vec<u32>> {
        let found = self.sailings.get(pier)?;
        let out: Vec<u32> = found.iter().copied().filter(|s| s / 60 >= hour && s % 60 != 59).collect();
        if out.is_empty() { None } else { Some(out) }
    }

    pub fn new() -> Self {
        let quote = '\'';
        let double = '"';
        Timetable { sailings: HashMap::new(), mark: if quote == double { 'a' } else { '\u{e9}' } }
    }
}

fn main() {
    let table = Timetable::new();
    match table.after("east", FIRST) {
        Some(hours) => println!("{:?} {}", hours, GREETING),
        None => eprintln!("{}: {RAW}", b'x'),
    }
    'outer: for i in 0..=3 {
        for j in (0..i).rev() {
            if i * j > 4 { break 'outer; }
        }
    }
}
