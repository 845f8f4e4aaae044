//! The option that names the file for a result.

use std::path::PathBuf;

use super::context::Context;
use super::files;

/// Where a result goes, and whether it may replace what is there.
#[derive(Debug, Clone, clap::Args)]
pub(crate) struct OutputArgs {
    /// Write the result to this file; an existing file is kept unless --force is given
    #[arg(long, short, value_name = "FILE")]
    pub output: Option<PathBuf>,

    /// Let --output replace an existing file
    #[arg(long, requires = "output")]
    pub force: bool,
}

impl OutputArgs {
    /// Checks, before any work is done, that the file may be written.
    ///
    /// # Errors
    /// A failure for a file that is there, or a folder that is not.
    pub fn check(&self) -> anyhow::Result<()> {
        self.output.as_deref().map_or(Ok(()), |path| files::check_output(path, self.force))
    }

    /// Writes the bytes to the file, whole or not at all, or to standard output when none is named.
    ///
    /// # Errors
    /// A failure when the file cannot be written or has appeared meanwhile.
    pub fn write(&self, bytes: &[u8], context: &mut Context<'_>) -> anyhow::Result<()> {
        match &self.output {
            Some(path) => files::write_whole(path, bytes, self.force),
            None => Ok(context.out.write_all(bytes)?),
        }
    }
}
