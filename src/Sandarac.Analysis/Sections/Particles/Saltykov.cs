namespace Sandarac.Analysis.Sections.Particles;

/// <summary>
/// Sizes of spheres from sizes of their sections: Scheil, Schwartz and Saltykov's unfolding (Saltykov, Stereometric Metallography, 1958; formula from memory). A section
/// seldom passes through a sphere's middle: the mean diameter of random sections through equal spheres is pi / 4 = 0.785 of theirs, and large ones are met more often.
/// </summary>
internal static class Saltykov
{
    /// <summary>Mean diameter of random sections through equal spheres, as a share of the spheres'.</summary>
    public const double SectionShare = Math.PI / 4;

    /// <summary>Numbers of spheres by class of diameter, per volume, relative. Classes are equally wide, from 0 to the largest section's diameter.</summary>
    /// <param name="diameters">Diameters of the sections.</param>
    /// <param name="classes">How many classes.</param>
    /// <returns>Upper end of each class and its number; negative numbers, which chance makes, are set to 0.</returns>
    public static (double Diameter, double Number)[] Unfold(IReadOnlyList<double> diameters, int classes)
    {
        var width = diameters.Max() / classes;
        var sections = new double[classes];
        foreach (var d in diameters) sections[Math.Min(classes - 1, (int)(d / width))]++;
        var spheres = new double[classes];
        for (var i = classes - 1; i >= 0; i--)
        {
            var left = sections[i];
            for (var j = i + 1; j < classes; j++) left -= spheres[j] * width * Met(i, j);
            spheres[i] = Math.Max(0, left / (width * Met(i, i)));
        }
        return [.. spheres.Select((n, k) => ((k + 1) * width, n))];
    }

    /// <summary>Sections of class i that a sphere of class j gives, per unit of number and class width.</summary>
    private static double Met(int i, int j) => Math.Sqrt((j + 1.0) * (j + 1) - (double)i * i) - Math.Sqrt((j + 1.0) * (j + 1) - (i + 1.0) * (i + 1));

    /// <summary>Mean diameter of the unfolded spheres, by number; a class stands for its upper end.</summary>
    public static double MeanDiameter(IReadOnlyList<(double Diameter, double Number)> spheres) => spheres.Sum(s => s.Diameter * s.Number) / spheres.Sum(s => s.Number);
}
