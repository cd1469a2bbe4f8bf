using Sandarac.Studio;
using Sandarac.Studio.Tests;
using Xunit.MicrosoftTestingPlatform;

// Child process of the kill test: examines a folder and says which photographs are stored, each on a line, once they are.
if (args is ["examine", var folder, var home])
{
    using var studio = OpenStudio.At(home);
    Console.WriteLine("open");
    new Examining(studio).Examine(folder, new ExamineOptions { HeightMm = 100, WidthMm = 117, CornersOnly = true }, new StoredLines());
    Console.WriteLine("done");
    return 0;
}
// Child processes of the kill tests of packing and unpacking.
if (args is ["pack" or "unpack", _, _, _])
{
    using var studio = OpenStudio.At(args[1]);
    Console.WriteLine("open");
    if (args[0] == "pack") new Sandarac.Studio.Archive.Packing(studio, _ => []).Pack(Guid.Parse(args[2]), args[3]);
    else new Sandarac.Studio.Archive.Unpacking(studio).Unpack(args[3]);
    Console.WriteLine("done");
    return 0;
}
return args.Any(a => a is "--server" or "--internal-msbuild-node")
    ? await TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions)
    : await Xunit.Runner.InProc.SystemConsole.ConsoleRunner.Run(args);

internal sealed class StoredLines : IProgress<ExamineProgress>
{
    public void Report(ExamineProgress value)
    {
        if (value.Step == "imported") Console.WriteLine(value.Item);
    }
}
