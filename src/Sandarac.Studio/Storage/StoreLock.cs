namespace Sandarac.Studio.Storage;

/// <summary>Lets one thread of one process at a time put objects in place, clean up or change tables. The operating system frees it when a
/// process ends, however it ends.</summary>
internal static class StoreLock
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    /// <summary>Waits for the lock; dispose the result to leave it.</summary>
    /// <exception cref="Imaging.InputProblem">Another process has held it for two minutes.</exception>
    public static FileStream Enter(string folder)
    {
        var until = Environment.TickCount64 + (long)Patience.TotalMilliseconds;
        for (var wait = 1; ; wait = Math.Min(wait * 2, 50))
        {
            try
            {
                return new FileStream(Path.Combine(folder, "studio.lock"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException e) when (e is not (DirectoryNotFoundException or FileNotFoundException))
            {
                if (Environment.TickCount64 > until)
                    throw new Imaging.InputProblem("studio-busy", folder, "Another process has held this studio's lock for two minutes.", "End it, or try again when it has finished.", e);
                Thread.Sleep(wait);
            }
        }
    }
}
