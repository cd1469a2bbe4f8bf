using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Sandarac.Studio.Storage;

/// <summary>Writes that are on the disk when the call returns.</summary>
internal static partial class Durable
{
    /// <summary>Flushes a file's content.</summary>
    public static void FlushFile(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.ReadWrite, FileShare.Read);
        stream.Flush(flushToDisk: true);
    }

    /// <summary>Renames a flushed file and makes the new name durable. Never replaces a file: the one that came first stays.</summary>
    public static void Move(string from, string to)
    {
        try
        {
            File.Move(from, to, overwrite: false);
        }
        catch (IOException) when (File.Exists(to))
        {
            File.Delete(from);
        }
        FlushFolder(Path.GetDirectoryName(to)!);
        FlushFolder(Path.GetDirectoryName(Path.GetDirectoryName(to))!);
    }

    /// <summary>Flushes a folder's entries. Windows keeps its file table in a journal and has no such call.</summary>
    private static void FlushFolder(string folder)
    {
        if (OperatingSystem.IsWindows()) return;
        using var handle = new SafeFileHandle(Open(folder, 0), ownsHandle: true);
        if (handle.IsInvalid || Fsync(handle) != 0)
            throw new IOException($"The folder {folder} could not be flushed to the disk (error {Marshal.GetLastPInvokeError()}).");
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial nint Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    private static partial int Fsync(SafeFileHandle handle);
}
