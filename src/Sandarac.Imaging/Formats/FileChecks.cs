namespace Sandarac.Imaging.Formats;

/// <summary>What is checked of a file before anything in it is believed.</summary>
internal static class FileChecks
{
    /// <summary>Opens a regular, readable, non-empty file no larger than the limit.</summary>
    /// <exception cref="InputProblem">It is none.</exception>
    public static FileStream Open(string path, ImageLimits limits)
    {
        var name = Path.GetFileName(path);
        if (Directory.Exists(path)) throw new InputProblem("not-a-file", name, $"{name} is a folder.", "Name an image file in it.");
        var file = new FileInfo(path);
        if (file.LinkTarget is not null) file = file.ResolveLinkTarget(true) as FileInfo ?? file;
        if (!file.Exists) throw new InputProblem("file-missing", name, $"There is no file {name}.", "Check the name and the folder.");
        // Pipes and devices have no length either; opening one could wait for ever.
        if (file.Length == 0) throw new InputProblem("file-empty", name, $"{name} is empty (0 bytes).", "Copy it again from where it was made.");
        if (file.Length > limits.MaxFileBytes)
            throw new InputProblem("file-too-large", name, $"{name} has {Size(file.Length)}; the limit is {Size(limits.MaxFileBytes)}.", "Raise the limit on file size if this file is wanted.");
        try
        {
            return new FileStream(file.FullName, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete, 4096, FileOptions.RandomAccess);
        }
        catch (Exception e) when (e is UnauthorizedAccessException or IOException)
        {
            throw new InputProblem("file-unreadable", name, $"{name} may not be read.", "Give yourself permission to read it, or close the program that holds it.", e);
        }
    }

    /// <summary>The kind of a file by its content.</summary>
    /// <exception cref="InputProblem">It is no image of a kind that is read.</exception>
    public static string Kind(FileStream file)
    {
        var name = Path.GetFileName(file.Name);
        Span<byte> head = stackalloc byte[FileKind.HeadBytes];
        file.Position = 0;
        head = head[..file.ReadAtLeast(head, head.Length, throwOnEndOfStream: false)];
        return FileKind.Of(head) ?? throw new InputProblem("not-an-image", name, $"{name} is {FileKind.Guess(head)}.", "Leave it out, or save the picture as TIFF, PNG, JPEG, WebP, HEIF or AVIF.");
    }

    /// <summary>Checks what the header claims against the limits, before a pixel is decoded.</summary>
    /// <exception cref="InputProblem">It claims more than is allowed.</exception>
    public static void Claims(string name, long width, long height, long bands, int sampleBytes, long fileBytes, ImageLimits limits)
    {
        var pixels = (Int128)width * height;
        var bytes = pixels * bands * sampleBytes;
        if (pixels > limits.MaxPixels)
            throw TooLarge($"{name} claims {width} x {height} pixels; the limit is {limits.MaxPixels / 1e6:0} million.");
        if (bytes > limits.MaxDecodedBytes)
            throw TooLarge($"{name} would take {Size((long)Int128.Min(bytes, long.MaxValue))} unpacked; the limit is {Size(limits.MaxDecodedBytes)}.");
        if (bytes > limits.ExpansionFloor && bytes > (Int128)fileBytes * limits.MaxExpansion)
            throw TooLarge($"{name} would unpack from {Size(fileBytes)} to {Size((long)bytes)}, which no photograph does.");
        InputProblem TooLarge(string message) => new("image-too-large", name, message, "If it is a real photograph, raise the limits on image size; otherwise leave it out.");
    }

    /// <summary>A size in words.</summary>
    public static string Size(long bytes) => bytes switch
    {
        < 1000 => $"{bytes} bytes",
        < 1_000_000 => FormattableString.Invariant($"{bytes / 1e3:0.#} kB"),
        < 1_000_000_000 => FormattableString.Invariant($"{bytes / 1e6:0.#} MB"),
        _ => FormattableString.Invariant($"{bytes / 1e9:0.##} GB"),
    };
}
