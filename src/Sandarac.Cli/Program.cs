Console.WriteLine("sandarac");
