//! `repair`: applies the edits that prove to mend their findings.

use crate::arguments::Repair;
use crate::{CLEAN, FINDINGS, disk, print};
use chairwright_driver::repair;

/// Runs the command.
pub fn run(arguments: &Repair) -> Result<u8, String> {
    let (world, name) = disk::open(&arguments.file)?;
    let repaired = repair(&world, &name);
    for r in &repaired.made {
        let was = if r.was.is_empty() { "nothing".to_owned() } else { format!("`{}`", r.was) };
        let is = if r.is.is_empty() { "nothing".to_owned() } else { format!("`{}`", r.is) };
        print(&format!("{}:{}: {was} becomes {is} [{}]\n", r.file, r.line, r.code));
    }
    if repaired.made.is_empty() {
        print("Nothing here can be mended by an edit that proves itself; see chairwright check.\n");
        return Ok(CLEAN);
    }
    if arguments.show {
        print("Nothing was written.\n");
        return Ok(FINDINGS);
    }
    for (path, text) in &repaired.texts {
        world.replace(path, text)?;
    }
    print(&format!(
        "{} mended. Read each line again: an edit that can be read is not always what was meant.\n",
        count(repaired.made.len())
    ));
    Ok(CLEAN)
}

fn count(n: usize) -> String {
    if n == 1 { "1 place".to_owned() } else { format!("{n} places") }
}
