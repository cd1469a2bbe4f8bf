using Sandarac.Imaging;
using Sandarac.Specimen.Scoring;
using Sandarac.Specimen.Sections;

namespace Sandarac.Specimen.Tests.Sections;

public class SectionSpecimenTests
{
    [Fact]
    public void SectionsHaveThreeToNineLayersInOrder()
    {
        var sections = Enumerable.Range(2000, 60).Select(seed => new InventedSection(seed).Stack).ToArray();
        Assert.Equal(3, sections.Min(s => s.Layers.Count));
        Assert.Equal(9, sections.Max(s => s.Layers.Count));
        Assert.All(sections, s =>
        {
            var under = s.Base;
            foreach (var layer in s.Layers)
            {
                Assert.All(layer.Top.Zip(under), pair => Assert.True(pair.First >= pair.Second));
                under = layer.Top;
            }
        });
        Assert.Contains(sections, s => s.Layers.Any(l => l.Note.CoveredShare < 1));
    }

    [Fact]
    public void TheSameSeedGivesTheSameFilesWhateverTheThreads()
    {
        var folder = Directory.CreateTempSubdirectory("sandarac-test-").FullName;
        try
        {
            byte[][] Draw(int threads)
            {
                SectionSpecimens.Draw(2001, folder, threads, cancellation: TestContext.Current.CancellationToken);
                return [.. Directory.GetFiles(folder, "*2001*", SearchOption.AllDirectories).Order().Select(File.ReadAllBytes)];
            }

            var (one, two) = (Draw(1), Draw(2));
            Assert.Equal(3, one.Length);
            Assert.All(one.Zip(two), pair => Assert.True(pair.First.AsSpan().SequenceEqual(pair.Second)));
            var truth = SectionScore.Read(folder, 2001);
            // The true lines meet themselves, and the layers are as thick as they were laid to a tenth.
            Assert.All(Enumerable.Range(0, truth.Layers + 1), b => Assert.Equal(0, truth.MeanError(b, truth.Boundaries[b]), 1e-9));
            Assert.All(new InventedSection(2001).Stack.Layers.Where(l => l.Note.CoveredShare == 1), l => Assert.Equal(1, truth.ThicknessUm(l.Note.Number) / l.Note.MeanUm, 0.25));
        }
        finally
        {
            Directory.Delete(folder, true);
        }
    }

    [Fact]
    public void SeedsOutOfRangeAreRefused() => Assert.Equal("section-seed", Assert.Throws<InputProblem>(() => SectionSpecimens.Draw(10_000, Path.GetTempPath(), 0, cancellation: TestContext.Current.CancellationToken)).Code);
}
