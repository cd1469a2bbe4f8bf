namespace Sandarac.Imaging.Storing;

/// <summary>Turns what the disk says into words: a full disk is a problem a person can put right.</summary>
internal static class Disk
{
    // errno of Linux and macOS (ENOSPC, EDQUOT on each), then HRESULTs of Windows (ERROR_HANDLE_DISK_FULL, ERROR_DISK_FULL).
    private static readonly int[] Full = [28, 122, 69, unchecked((int)0x80070027), unchecked((int)0x80070070)];

    // What .NET throws when room cannot be set aside carries no code of the system's, only the general one of an input or output error.
    private const int NoRoomToSetAside = unchecked((int)0x80131620);

    public static bool IsFull(IOException e) => Full.Contains(e.HResult);

    public static InputProblem FullProblem(string path, IOException? e) => new(
        "disk-full", Path.GetFileName(path), $"There is no room left on the disk for {Path.GetFileName(path)}.",
        "Free some space there, or choose another disk; nothing half written is kept.", e);

    /// <summary>Opens a new file of a known size, its room set aside at once so that a full disk is found before the work, not after it.</summary>
    /// <exception cref="InputProblem">There is no room.</exception>
    public static Microsoft.Win32.SafeHandles.SafeFileHandle Create(string path, long size)
    {
        // Asked before: setting aside more room than there is would take all of it for a moment, from everyone else.
        if (Free(path) < size) throw FullProblem(path, null);
        try
        {
            return File.OpenHandle(path, FileMode.Create, FileAccess.ReadWrite, FileShare.Read, FileOptions.None, size);
        }
        catch (IOException e) when (IsFull(e) || e.HResult == NoRoomToSetAside)
        {
            throw FullProblem(path, e);
        }
    }

    private static long Free(string path)
    {
        try
        {
            return new DriveInfo(Path.GetDirectoryName(Path.GetFullPath(path))!).AvailableFreeSpace;
        }
        catch (ArgumentException)
        {
            // A network path of Windows is no drive: writing will tell.
            return long.MaxValue;
        }
    }
}
